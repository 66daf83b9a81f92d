// The folder of the VS Code extension, held against what the program prints.
// Usage: vscode.js PROGRAM FOLDER NOTE ; prints `ok WHAT` or `not ok WHAT`.

'use strict';

const fs = require('fs');
const path = require('path');
const Module = require('module');
const { spawnSync } = require('child_process');

const [program, folder, note] = process.argv.slice(2);
const manifest = JSON.parse(fs.readFileSync(path.join(folder, 'package.json')));
const contributes = manifest.contributes;

function report(ok, what, why) {
	console.log(`${ok ? 'ok' : 'not ok'} ${what}${ok ? '' : `: ${why}`}`);
}

function check(...args) {
	const run = spawnSync(program, ['check', '--today=2026-06-01', ...args],
		{ encoding: 'utf8' });
	return run.stdout.split('\n').filter((line) => line);
}

// Every file that the manifest names is there and is JSON or a program.
const files = [manifest.main, ...contributes.grammars.map((g) => g.path),
	...contributes.snippets.map((s) => s.path),
	...contributes.languages.map((l) => l.configuration)];
for (const file of files) {
	try {
		const text = fs.readFileSync(path.join(folder, file), 'utf8');
		if (file.endsWith('.json'))
			JSON.parse(text);
		report(true, `file ${file}`);
	} catch (error) {
		report(false, `file ${file}`, error.message);
	}
}

// The problem matcher takes every finding, and nothing but findings.
const pattern = contributes.problemMatchers[0].pattern;
const matcher = new RegExp(pattern.regexp);
const wanted = check('--format=json', note).map((line) => JSON.parse(line));
for (const form of ['--brief', '--color=never']) {
	const got = check(form, note).map((line) => matcher.exec(line))
		.filter((match) => match).map((match) => ({
			file: match[pattern.file],
			line: Number(match[pattern.line]),
			column: Number(match[pattern.column]),
			level: match[pattern.severity],
			rule: match[pattern.code],
			message: match[pattern.message],
		}));
	const short = wanted.map(({ file, line, column, level, rule, message }) =>
		({ file, line, column, level, rule, message }));
	const same = JSON.stringify(got) === JSON.stringify(short);
	report(same && got.length > 0, `problem matcher, ${form}`,
		`${got.length} taken of ${wanted.length}`);
}

// What a snippet writes can be read, whichever of its choices is taken.
function expand(body, pick) {
	const text = [].concat(body).join('\n');
	const variables = { CURRENT_YEAR: '2026', CURRENT_MONTH: '05', CURRENT_DATE: '04' };
	return text.replace(/\$\{(\w+)\|([^}]*)\|\}/g, (_, n, choices) => {
		const words = choices.split(',');
		return words[Math.min(pick, words.length - 1)];
	}).replace(/\$\{([A-Z_]+)\}/g, (_, name) => variables[name])
		.replace(/\$\{\d+:([^${}]*)\}/g, '$1')
		.replace(/\$\{\d+:([^${}]*)\}/g, '$1').replace(/\$\d/g, '');
}

function frame(name, text) {
	if (/^(subject|precaution|goal)/.test(text))
		return `${text}session 2026-05-04\nknee R A 0-120\n`;
	if (/^session/.test(text))
		return `subject EX-101\n${text}knee R A 0-120\n`;
	if (/^NT/.test(text))
		return `subject EX-101\nsession 2026-05-04\nshoulder flexion R ${text}\n`;
	if (/^#/.test(text))
		return `subject EX-101\nsession 2026-05-04\nknee R A 5-104 P 5-90 ${text}\n`;
	return `subject EX-101\nsession 2026-05-04\n${text}`;
}

const reading = new Set(['syntax', 'unknown-word', 'motion-not-of-joint',
	'side-not-of-motion', 'number-form', 'ambiguous-extension', 'date-form',
	'open-quote', 'encoding', 'line-too-long', 'acceptance-unused',
	'acceptance-without-reason', 'end-before-start']);
for (const { path: file } of contributes.snippets) {
	const snippets = JSON.parse(fs.readFileSync(path.join(folder, file)));
	for (const [name, { body }] of Object.entries(snippets))
		for (let pick = 0; pick < 3; pick++) {
			const text = frame(name, expand(body, pick));
			const run = spawnSync(program, ['check', '--format=json'],
				{ input: text, encoding: 'utf8' });
			const bad = run.stdout.split('\n').filter((line) => line)
				.map((line) => JSON.parse(line))
				.filter((finding) => reading.has(finding.rule));
			report(bad.length === 0 && run.status < 2 && !/[$}]/.test(text),
				`snippet ${name}, choice ${pick + 1}`,
				JSON.stringify(bad) + text);
		}
}

// The client starts the program that the settings name.
let started, stopped = 0;
const load = Module._load;
Module._load = function (name, ...rest) {
	if (name === 'vscode')
		return {
			workspace: {
				getConfiguration: (section) => ({
					get: (key) => contributes.configuration
						.properties[`${section}.${key}`].default,
				}),
			},
			window: { showErrorMessage: (text) => { throw new Error(text); } },
		};
	if (name === 'vscode-languageclient/node')
		return {
			LanguageClient: class {
				constructor(...args) { this.args = args; }
				start() { started = this.args; return Promise.resolve(); }
				isRunning() { return true; }
				stop() { stopped++; return Promise.resolve(); }
			},
		};
	return load.call(this, name, ...rest);
};
const extension = require(path.resolve(folder, manifest.main));
extension.activate();
report(started && started[2].command === 'rangeline' &&
	JSON.stringify(started[2].args) === '["language-server"]' &&
	started[3].documentSelector[0].language === contributes.languages[0].id,
'the client starts the server', JSON.stringify(started));
extension.deactivate();
report(stopped === 1, 'the client stops the server', stopped);
