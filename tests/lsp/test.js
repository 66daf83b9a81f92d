// test.js PROGRAM: the language server as a client that is not ours sees it.
'use strict';

const assert = require('node:assert/strict');
const { execFileSync, spawnSync } = require('node:child_process');
const { Client, everything, lsp, rpc } = require('./client');
const { test, run } = require('./harness');
const { corpus, example } = require('./notes');
const { placeOfByte, withEdits } = require('./places');

const program = process.argv[2];
const today = ['--today', '2026-06-01'];
const uri = 'file:///invented/note.range';

async function start(capabilities = everything, options = undefined) {
  const client = new Client(program, today);
  client.capabilities = (await client.initialize(capabilities, options))
    .capabilities;
  return client;
}

async function stop(client) {
  assert.equal(await client.shutdown(), 0);
  assert.equal(client.errors, '');
}

function withEncodings(...encodings) {
  return { ...everything, general: { positionEncodings: encodings } };
}

// TEXT with a | at the cursor: the text without it, and the position.
function cursor(text) {
  const at = text.indexOf('|');
  const lines = text.slice(0, at).split('\n');
  return {
    text: text.replace('|', ''),
    position: { line: lines.length - 1, character: lines.at(-1).length },
  };
}

async function complete(client, marked) {
  const { text, position } = cursor(marked);
  await client.open(uri, text);
  const list = await client.request(
    lsp.CompletionRequest.type, uri, { position });
  return list.items;
}

const labels = (items) => items.map((item) => item.label);

async function hover(client, marked) {
  const { text, position } = cursor(marked);
  await client.open(uri, text);
  const result = await client.request(lsp.HoverRequest.type, uri, { position });
  return result && result.contents.value;
}

// The actions at the first finding of RULE; or at all findings.
async function actions(client, text, rule, context = {}) {
  const findings = await client.open(uri, text);
  const found = findings.filter((f) => f.code === rule);
  assert.ok(found.length > 0, `${rule} is not reported in ${text}`);
  return client.request(lsp.CodeActionRequest.type, uri,
    { range: found[0].range, context: { diagnostics: found, ...context } });
}

const made = (text, action) =>
  withEdits(text, action.edit.changes[uri]);

// --- lifecycle ---

test('capabilities name what is done, and the program', async () => {
  const client = new Client(program, today);
  const result = await client.initialize();
  assert.equal(result.serverInfo.name, 'rangeline');
  assert.equal(result.serverInfo.version,
    execFileSync(program, ['--version'], { encoding: 'utf8' })
      .split('\n')[0].split(' ')[1]);
  assert.equal(result.capabilities.textDocumentSync.change,
    lsp.TextDocumentSyncKind.Incremental);
  await stop(client);
});

test('the first encoding of the client that there is', async () => {
  const cases = [
    [['utf-8', 'utf-16'], 'utf-8'], [['utf-16', 'utf-8'], 'utf-16'],
    [['utf-32'], 'utf-32'], [['ebcdic', 'utf-32'], 'utf-32'],
    [['ebcdic'], 'utf-16'], [[], 'utf-16'],
  ];
  for (const [offered, taken] of cases) {
    const client = await start(withEncodings(...offered));
    assert.equal(client.capabilities.positionEncoding, taken);
    await stop(client);
  }
  const client = await start({});
  assert.equal(client.capabilities.positionEncoding, 'utf-16');
  assert.equal(client.capabilities.codeActionProvider, undefined);
  await stop(client);
});

test('nothing before initialize, nothing behind shutdown', async () => {
  const client = new Client(program, today);
  await assert.rejects(
    client.request(lsp.HoverRequest.type, uri,
      { position: { line: 0, character: 0 } }),
    { code: rpc.ErrorCodes.ServerNotInitialized });
  await client.initialize();
  await assert.rejects(client.initialize(), { code: -32600 });
  await client.connection.sendRequest(lsp.ShutdownRequest.type);
  await assert.rejects(
    client.request(lsp.HoverRequest.type, uri,
      { position: { line: 0, character: 0 } }), { code: -32600 });
  await client.connection.sendNotification(lsp.ExitNotification.type);
  assert.equal(await client.exited, 0);
});

test('exit without shutdown is status 1, a lost client too', async () => {
  let client = await start();
  await client.connection.sendNotification(lsp.ExitNotification.type);
  assert.equal(await client.exited, 1);
  client = await start();
  client.process.stdin.end();
  assert.equal(await client.exited, 1);
});

test('an unknown method, wrong parameters, a note that is not open',
  async () => {
    const client = await start();
    await assert.rejects(
      client.connection.sendRequest('textDocument/references', {}),
      { code: rpc.ErrorCodes.MethodNotFound });
    await client.open(uri, example);
    await assert.rejects(client.request(lsp.HoverRequest.type, uri, {}),
      { code: rpc.ErrorCodes.InvalidParams });
    await assert.rejects(
      client.connection.sendRequest('workspace/executeCommand',
        { command: 'none' }), { code: rpc.ErrorCodes.InvalidParams });
    assert.equal(
      await client.request(lsp.HoverRequest.type, 'file:///other.range',
        { position: { line: 0, character: 0 } }), null);
    await client.connection.sendNotification('$/unknown', {});
    await client.connection.sendNotification('workspace/unknown', {});
    await stop(client);
  });

// --- raw bytes ---

// What the server answers to BYTES, one after another, and what it tells.
function raw(bytes) {
  const { stdout, stderr, status } = spawnSync(
    program, ['language-server', ...today], { input: bytes });
  const messages = [];
  let rest = stdout;
  while (rest.length > 0) {
    const head = rest.indexOf('\r\n\r\n');
    const length = Number(
      /^Content-Length: (\d+)$/.exec(rest.subarray(0, head).toString())[1]);
    messages.push(JSON.parse(rest.subarray(head + 4, head + 4 + length)));
    rest = rest.subarray(head + 4 + length);
  }
  return { answers: messages.filter((m) => !m.method),
    told: messages.filter((m) => m.method === 'window/showMessage').length,
    stderr: stderr.toString(), status };
}

const frame = (body) =>
  `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
const call = (id, method, params = {}) =>
  frame(JSON.stringify({ jsonrpc: '2.0', id, method, params }));
const tell = (method, params = {}) =>
  frame(JSON.stringify({ jsonrpc: '2.0', method, params }));
const opening = call(1, 'initialize', { capabilities: {} });
const ending = call(99, 'shutdown') + tell('exit');

test('what is no JSON, no request, no header is answered and passed over',
  () => {
    const cases = [
      ['{', null, -32700],
      ['', null, -32700],
      ['{"jsonrpc":"2.0","id":1,"method":"\ud800"', null, -32700],
      ['[]', null, -32600],
      ['7', null, -32600],
      ['{}', null, -32600],
      ['{"jsonrpc":"2.0","id":7}', 7, -32600],
      ['{"jsonrpc":"2.0","id":{},"method":"shutdown"}', null, -32600],
      ['{"jsonrpc":"1.0","id":7,"method":"shutdown"}', 7, -32600],
      ['{"jsonrpc":"2.0","id":"seven","method":8}', 'seven', -32600],
      ['{"jsonrpc":"2.0","id":7,"method":"none"}', 7, -32601],
      ['{"jsonrpc":"2.0","id":7,"method":"textDocument/didOpen"}', 7, -32600],
      ['{"jsonrpc":"2.0","id":7,"method":"initialize"}', 7, -32600],
    ];
    for (const [body, id, code] of cases) {
      const { answers, told, stderr, status } =
        raw(opening + frame(body) + ending);
      assert.equal(answers.length, 3, body);
      assert.equal(told, code === -32700 ? 1 : 0, body);
      assert.equal(stderr !== '', code === -32700, body);
      assert.equal(answers[1].id, id, body);
      assert.equal(answers[1].error.code, code, body);
      assert.equal(answers[2].id, 99, body);
      assert.equal(status, 0, body);
    }
  });

test('bad headers are told, and the next message is read', () => {
  const cases = [
    'Content-Length: x\r\n\r\n',
    'Content-Length: -1\r\n\r\n',
    'Content-Length: 99999999999999999999\r\n\r\n',
    'no header\r\n\r\n',
    'Content-Type: text/plain\r\n\r\n',
    `${'x'.repeat(5000)}\r\n\r\n`,
    'Content-Length: x\r\n\r\nrubbish without an end',
    'Content-Length: 1\r\nContent-Length: 2\r\n\r\n{}',
  ];
  for (const bad of cases) {
    const { answers, told, stderr, status } = raw(opening + bad + ending);
    assert.equal(told, 1, bad);
    assert.match(stderr,
      /^rangeline: language-server: a message was passed over: .*\n$/, bad);
    assert.equal(answers[1].id, null, bad);
    assert.equal(answers[1].error.code, -32700, bad);
    assert.equal(answers.at(-1).id, 99, bad);
    assert.equal(status, 0, bad);
  }
});

test('a message that is too long is passed over whole', () => {
  const length = 64 * 1024 * 1024 + 1;
  const { answers, status } = raw(Buffer.concat([
    Buffer.from(`${opening}Content-Length: ${length}\r\n\r\n`),
    Buffer.alloc(length, ' '), Buffer.from(ending)]));
  assert.deepEqual(answers.map((a) => a.id), [1, null, 99]);
  assert.equal(status, 0);
});

test('other header lines, any case, and bare LF are read', () => {
  const body = '{"jsonrpc":"2.0","id":5,"method":"none"}';
  for (const head of [
    `Content-Type: application/vscode-jsonrpc; charset=utf-8\r\n` +
      `Content-Length: ${body.length}\r\n\r\n`,
    `content-length:${body.length}\r\n\r\n`,
    `Content-Length: ${body.length}\n\n`]) {
    const { answers } = raw(opening + head + body + ending);
    assert.deepEqual(answers.map((a) => a.id), [1, 5, 99]);
  }
});

test('a message may come byte by byte', async () => {
  const client = new Client(program, today);
  const bytes = opening + ending;
  for (const byte of bytes) {
    client.process.stdin.write(byte);
    await new Promise((next) => setImmediate(next));
  }
  assert.equal(await client.exited, 0);
});

test('a request that waits and is cancelled is answered so', () => {
  const { answers } = raw(opening + call(2, 'textDocument/hover') +
    call('3', 'textDocument/hover') + call(4, 'none') +
    tell('$/cancelRequest', { id: '3' }) +
    tell('$/cancelRequest', { id: 1000 }) + ending);
  const codes = Object.fromEntries(
    answers.map((a) => [a.id, a.error && a.error.code]));
  assert.equal(codes['3'], -32800);
  assert.notEqual(codes['2'], -32800);
  assert.equal(codes['4'], -32601);
  assert.equal(answers.length, 5);
});

test('an answer that cannot be written is status 2, files are too', () => {
  const full = spawnSync('sh',
    ['-c', 'exec "$0" language-server >/dev/full', program],
    { input: opening });
  assert.equal(full.status, 2);
  const files = spawnSync(program, ['language-server', 'note.range'],
    { input: '', encoding: 'utf8' });
  assert.equal(files.status, 2);
  assert.match(files.stderr, /takes no files/);
});

// --- findings ---

// What `check` says of the note, as the protocol would.
function checked(note, encoding) {
  const result = spawnSync(program,
    ['check', '--format', 'json', ...today, note.path],
    { encoding: 'utf8', maxBuffer: 1 << 28 });
  assert.ok(result.status < 2, result.stderr);
  const rows = [0];
  const bytes = Buffer.from(note.text, 'utf8');
  for (let i = 0; i < bytes.length; i++)
    if (bytes[i] === 10)
      rows.push(i + 1);
  const bom = note.text.startsWith('\ufeff') ? 3 : 0;
  const at = (line, column) => placeOfByte(note.text,
    rows[line - 1] + (line === 1 ? bom : 0) + column - 1, encoding);
  return result.stdout.split('\n').filter(Boolean).map((line) => {
    const f = JSON.parse(line);
    return {
      range: { start: at(f.line, f.column), end: at(f.end_line, f.end_column) },
      severity: { error: 1, warning: 2, note: 3 }[f.level],
      code: f.rule,
      message: f.message + (f.hint ? `\n${f.hint}` : ''),
    };
  });
}

const plain = ({ range, severity, code, message }) =>
  ({ range, severity, code, message });

for (const encoding of ['utf-8', 'utf-16', 'utf-32'])
  test(`the findings of check for every note, in ${encoding}`, async () => {
    const client = await start(withEncodings(encoding));
    const { notes, unsendable } = corpus();
    assert.ok(notes.length > 100);
    assert.deepEqual(unsendable, ['corpus/broken/bytes.range']);
    for (const note of notes) {
      const findings = await client.open(`file:///${note.name}`, note.text);
      assert.deepEqual(findings.map(plain), checked(note, encoding), note.name);
    }
    await stop(client);
  });

test('findings carry the other reading, and a tag where one is idle',
  async () => {
    const client = await start();
    const text = 'session 2026-05-04\n' +
      'hip flexion R A 0-120 P 0-100 firm L A 0-120 P 0-122 firm\n' +
      'knee R A 0-140 # accept off-scale: none\n';
    const findings = await client.open(uri, text);
    const below = findings.find((f) => f.code === 'passive-below-active');
    assert.deepEqual(below.relatedInformation, [{
      location: { uri, range: { start: { line: 1, character: 16 },
        end: { line: 1, character: 21 } } },
      message: 'the reading that it is held against',
    }]);
    const idle = findings.find((f) => f.code === 'acceptance-unused');
    assert.deepEqual(idle.tags, [lsp.DiagnosticTag.Unnecessary]);
    const exceeded = (await client.open('file:///p.range', example))
      .find((f) => f.code === 'precaution-exceeded');
    assert.equal(exceeded.relatedInformation[0].location.range.start.line, 7);
    await stop(client);
    const simple = await start({});
    for (const f of await simple.open(uri, text)) {
      assert.equal(f.relatedInformation, undefined);
      assert.equal(f.tags, undefined);
    }
    await stop(simple);
  });

test('findings go when a note is closed', async () => {
  const client = await start();
  assert.ok((await client.open(uri, 'elbow\n')).length > 0);
  const gone = client.findings(uri, undefined);
  await client.connection.sendNotification(
    lsp.DidCloseTextDocumentNotification.type, { textDocument: { uri } });
  assert.deepEqual(await gone, []);
  await stop(client);
});

test('--level and settings change what is reported', async () => {
  const text = 'session 2026-05-04\nhip flexion R A 0-1 0-5 L A 0-3\n';
  const off = new Client(program, [...today, '--level', 'missing-header=off']);
  await off.initialize();
  assert.ok(!(await off.open(uri, text))
    .some((f) => f.code === 'missing-header'));
  await stop(off);
  const client = await start(everything, { tolerance: 2 });
  assert.ok((await client.open(uri, text))
    .some((f) => f.code === 'trials-disagree'));
  await client.connection.sendNotification(
    'workspace/didChangeConfiguration',
    { settings: { rangeline: { tolerance: 5 } } });
  client.published.delete(uri);
  assert.ok(!(await client.findings(uri, 1))
    .some((f) => f.code === 'trials-disagree'));
  await stop(client);
});

// --- changes ---

// Numbers that are the same on every run.
function numbers(seed) {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

const pieces = ['', ' ', '\n', '\r\n', '\r', '"', '#', '0-120', '°', '–', '\u{1f9b4}',
  'R ', 'session 2026-05-04\n', 'knee R A ', '# accept off-scale: x', 'é'];

for (const encoding of ['utf-8', 'utf-16', 'utf-32'])
  test(`edits leave the text that the editor has, in ${encoding}`, async () => {
    const next = numbers(7);
    const client = await start(withEncodings(encoding));
    let text = example;
    await client.open(uri, text);
    for (let version = 2; version < 202; version++) {
      const changes = [];
      for (let n = 1 + next(3); n > 0; n--) {
        const chars = [...text];
        const a = next(chars.length + 1);
        const b = Math.min(chars.length, a + next(4) * next(12));
        const beg = chars.slice(0, a).join('');
        const end = chars.slice(0, b).join('');
        const by = pieces[next(pieces.length)];
        const at = (s) => placeOfByte(text, Buffer.byteLength(s), encoding);
        // Between CR and LF there is no place: an editor has none either.
        if (/\r$/.test(beg) && /^\n/.test(text.slice(beg.length)) ||
            /\r$/.test(end) && /^\n/.test(text.slice(end.length)))
          continue;
        changes.push({ range: { start: at(beg), end: at(end) }, text: by });
        text = beg + by + text.slice(end.length);
      }
      const findings = await client.change(uri, version, changes);
      const fresh = await client.open('file:///fresh.range', text, version);
      assert.deepEqual(findings.map(plain), fresh.map(plain),
        JSON.stringify({ version, changes, text }));
      await client.close('file:///fresh.range');
    }
    await stop(client);
  });

test('a change of the whole text, and positions beyond the end', async () => {
  const client = await start();
  await client.open(uri, example);
  let found = await client.change(uri, 2, [{ text: 'elbow\n' }]);
  assert.deepEqual(found.map((f) => f.code), ['syntax']);
  found = await client.change(uri, 3, [{ text: ' R\n',
    range: { start: { line: 0, character: 500 },
      end: { line: 700, character: 3 } } }]);
  const fresh = await client.open('file:///f.range', 'elbow R\n', 3);
  assert.deepEqual(found.map(plain), fresh.map(plain));
  await stop(client);
});

test('a change that cannot be read is told to the user', async () => {
  const client = await start();
  await client.open(uri, example);
  await client.connection.sendNotification(
    lsp.DidChangeTextDocumentNotification.type,
    { textDocument: { uri, version: 2 }, contentChanges: [{ range: {
      start: { line: 3, character: 0 }, end: { line: 1, character: 0 } },
    text: 'x' }] });
  await client.request(lsp.FoldingRangeRequest.type, uri);
  assert.equal(client.messages.length, 1);
  assert.equal(client.messages[0].type, lsp.MessageType.Error);
  await stop(client);
});

test('many notes are kept apart', async () => {
  const client = await start();
  const name = (i) => `file:///many/${i}.range`;
  for (let i = 0; i < 200; i++)
    await client.open(name(i), `session 2026-05-04\nknee R A 0-${i}\n`);
  for (let i = 0; i < 200; i += 17) {
    const text = await client.request(lsp.HoverRequest.type, name(i),
      { position: { line: 1, character: 10 } });
    assert.match(text.contents.value, new RegExp(`measured: 0-${i},`));
  }
  for (let i = 0; i < 200; i += 2)
    await client.close(name(i));
  assert.equal(await client.request(lsp.HoverRequest.type, name(4),
    { position: { line: 1, character: 10 } }), null);
  assert.notEqual(await client.request(lsp.HoverRequest.type, name(5),
    { position: { line: 1, character: 10 } }), null);
  await stop(client);
});

require('./features')({ test, assert, start, stop, complete, labels, hover,
  actions, made, uri, cursor, program, today });

run();
