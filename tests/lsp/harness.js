// Named tests, one after another; closes with `N passed, N failed`.
'use strict';

const tests = [];
let passed = 0;
let failed = 0;

function test(name, body) {
  tests.push({ name, body });
}

async function withTime(body, seconds) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(
      () => reject(new Error(`no end after ${seconds} s`)), seconds * 1000);
  });
  try {
    await Promise.race([body(), late]);
  } finally {
    clearTimeout(timer);
  }
}

async function run() {
  for (const { name, body } of tests) {
    try {
      await withTime(body, 120);
      passed++;
    } catch (error) {
      failed++;
      console.log(`FAILED ${name}\n${error.stack}`);
    }
  }
  console.log(`${passed} passed, ${failed} failed`);
  process.exit(failed === 0 && passed > 0 ? 0 : 1);
}

module.exports = { test, run };
