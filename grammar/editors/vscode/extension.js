// Starts the language server of the rangeline program for notes. What it finds,
// completes and formats is the program's own; nothing is decided here.

'use strict';

const vscode = require('vscode');
const { LanguageClient } = require('vscode-languageclient/node');

let client;

function activate() {
	const settings = vscode.workspace.getConfiguration('rangeline');
	const server = {
		command: settings.get('program'),
		args: ['language-server', ...settings.get('arguments')],
	};

	client = new LanguageClient('rangeline', 'Rangeline', server, {
		documentSelector: [{ language: 'rangeline' }],
	});
	return client.start().catch((error) => {
		vscode.window.showErrorMessage(
			`Rangeline could not start '${server.command}': ` +
			`${error.message}. Install the program, or set ` +
			'"rangeline.program" to its path.');
	});
}

function deactivate() {
	return client && client.isRunning() ? client.stop() : undefined;
}

module.exports = { activate, deactivate };
