// A client on vscode-jsonrpc and vscode-languageserver-protocol: starts the
// server, opens notes, waits for findings. Every message that the server sends
// goes through these libraries, which refuse what is not the protocol.
'use strict';

const { spawn } = require('node:child_process');
const rpc = require('vscode-jsonrpc/node');
const lsp = require('vscode-languageserver-protocol/node');

const everything = {
  general: { positionEncodings: ['utf-16'] },
  window: { showDocument: { support: true } },
  workspace: { inlayHint: { refreshSupport: true } },
  textDocument: {
    publishDiagnostics: {
      relatedInformation: true,
      versionSupport: true,
      tagSupport: { valueSet: [1, 2] },
    },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    completion: {
      completionItem: { documentationFormat: ['markdown', 'plaintext'] },
    },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } },
    },
  },
};

class Client {
  constructor(program, args = []) {
    this.process = spawn(program, ['language-server', ...args]);
    this.errors = '';
    this.process.stderr.on('data', (d) => (this.errors += d));
    this.exited = new Promise((done) => this.process.on('exit', done));
    // A server that fell over answers nothing more: no test can go on.
    this.process.on('close', (status, signal) => {
      if (signal || status > 1) {
        console.log(`the server ended: ${signal || status}\n${this.errors}`);
        console.log('0 passed, 1 failed');
        process.exit(1);
      }
    });
    this.connection = rpc.createMessageConnection(
      new rpc.StreamMessageReader(this.process.stdout),
      new rpc.StreamMessageWriter(this.process.stdin));
    this.published = new Map(); // uri -> last params
    this.waiting = [];
    this.shown = [];
    this.messages = [];
    this.refreshed = 0;
    this.connection.onNotification(lsp.PublishDiagnosticsNotification.type,
      (params) => {
        this.published.set(params.uri, params);
        this.waiting = this.waiting.filter((w) => !w(params));
      });
    this.connection.onNotification(lsp.ShowMessageNotification.type,
      (params) => this.messages.push(params));
    this.connection.onRequest(lsp.ShowDocumentRequest.type, (params) => {
      this.shown.push(params);
      return { success: true };
    });
    this.connection.onRequest(lsp.InlayHintRefreshRequest.type, () => {
      this.refreshed++;
      return null;
    });
    this.connection.listen();
  }

  async initialize(capabilities = everything, options = undefined) {
    const result = await this.connection.sendRequest(
      lsp.InitializeRequest.type,
      { processId: process.pid, rootUri: null, capabilities,
        initializationOptions: options });
    await this.connection.sendNotification(
      lsp.InitializedNotification.type, {});
    return result;
  }

  // The findings of VERSION of the note, once the server sends them.
  findings(uri, version) {
    return new Promise((resolve) => {
      const have = this.published.get(uri);
      if (have && have.version === version) {
        resolve(have.diagnostics);
        return;
      }
      this.waiting.push((params) => {
        if (params.uri !== uri || params.version !== version)
          return false;
        resolve(params.diagnostics);
        return true;
      });
    });
  }

  async open(uri, text, version = 1) {
    this.published.delete(uri);
    const found = this.findings(uri, version);
    await this.connection.sendNotification(
      lsp.DidOpenTextDocumentNotification.type,
      { textDocument: { uri, languageId: 'rangeline', version, text } });
    return found;
  }

  async change(uri, version, contentChanges) {
    const found = this.findings(uri, version);
    await this.connection.sendNotification(
      lsp.DidChangeTextDocumentNotification.type,
      { textDocument: { uri, version }, contentChanges });
    return found;
  }

  async close(uri) {
    await this.connection.sendNotification(
      lsp.DidCloseTextDocumentNotification.type, { textDocument: { uri } });
    this.published.delete(uri);
  }

  request(type, uri, params = {}) {
    return this.connection.sendRequest(
      type, { textDocument: { uri }, ...params });
  }

  async shutdown() {
    await this.connection.sendRequest(lsp.ShutdownRequest.type);
    await this.connection.sendNotification(lsp.ExitNotification.type);
    return this.exited;
  }
}

module.exports = { Client, everything, lsp, rpc };
