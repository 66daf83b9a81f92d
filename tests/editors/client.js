// The extension with its real language client and the real server, in a
// stand-in for the editor: prints line, column and rule of what is published.
// Usage: client.js FOLDER NOTE ; vscode-languageclient must be found.

'use strict';

const fs = require('fs');
const Module = require('module');
const path = require('path');

const [folder, note] = process.argv.slice(2).map((name) => path.resolve(name));
const nothing = { dispose() {} };
const event = () => nothing;

// Whatever the client asks the editor for that is not listed below: a class to
// build upon, which registers anything and tells of no events.
function anything() {
	return new Proxy(class { constructor(...args) { this.args = args; } }, {
		get(target, key) {
			if (key in target || typeof key === 'symbol')
				return target[key];
			if (/^on(Did|Will)/.test(key))
				return event;
			if (/^(register|create)/.test(key))
				return () => nothing;
			return key;
		},
	});
}

function standIn(known) {
	return new Proxy(known, {
		get(target, key) {
			if (!(key in target) && typeof key === 'string' && key !== 'then') {
				const found = anything()[key];
				target[key] = found === key ? anything() : found;
			}
			return target[key];
		},
	});
}

class Position {
	constructor(line, character) { Object.assign(this, { line, character }); }
}

class Range {
	constructor(a, b, c, d) {
		[this.start, this.end] = c === undefined ? [a, b]
			: [new Position(a, b), new Position(c, d)];
	}
}

class Uri {
	constructor(name) { Object.assign(this, { scheme: 'file', path: name, fsPath: name }); }
	toString() { return `file://${this.path}`; }
	static parse(text) { return new Uri(text.replace('file://', '')); }
	static file(name) { return new Uri(name); }
}

class Diagnostic {
	constructor(range, message, severity) {
		Object.assign(this, { range, message, severity });
	}
}

function published(uri, found) {
	for (const { range, code } of found || [])
		console.log([path.basename(uri.path), range.start.line + 1,
			range.start.character + 1, code.value || code].join(':'));
	if (found && found.length)
		extension.deactivate().then(() => process.exit(0));
}

const output = { append: console.error, appendLine: console.error, show() {}, dispose() {} };
const vscode = standIn({
	Position, Range, Uri, Diagnostic,
	__esModule: true,
	version: '1.90.0',
	env: { language: 'en', appName: 'stand-in' },
	DiagnosticSeverity: { Error: 0, Warning: 1, Information: 2, Hint: 3 },
	Disposable: class { dispose() {} static from() { return nothing; } },
	EventEmitter: class { constructor() { this.event = event; } fire() {} dispose() {} },
	CancellationTokenSource: class {
		constructor() {
			this.token = { isCancellationRequested: false, onCancellationRequested: event };
		}
		cancel() {}
		dispose() {}
	},
	languages: standIn({
		match: () => 10,
		createDiagnosticCollection: () => ({
			set: published, clear() {}, delete() {}, dispose() {}, has: () => false,
		}),
	}),
	window: standIn({
		visibleTextEditors: [],
		showErrorMessage: async (text) => console.error(text),
		createOutputChannel: () => output,
		tabGroups: { all: [], onDidChangeTabs: event, onDidChangeTabGroups: event },
	}),
	workspace: standIn({
		textDocuments: [{
			uri: Uri.file(note), languageId: 'rangeline', version: 1,
			getText: () => fs.readFileSync(note, 'utf8'),
		}],
		notebookDocuments: [],
		workspaceFolders: undefined,
		getConfiguration: () => ({
			get: (key, other) => ({ program: 'rangeline', arguments: [] }[key] || other),
		}),
	}),
});

const load = Module._load;
Module._load = function (name, ...rest) {
	return name === 'vscode' ? vscode : load.call(this, name, ...rest);
};
const extension = require(path.join(folder, 'extension.js'));
extension.activate();
setTimeout(() => { console.error('nothing was published'); process.exit(1); }, 10000);
