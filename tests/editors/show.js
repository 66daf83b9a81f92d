// Prints how a note is coloured by a TextMate grammar in the engine that
// editors use: line, scope, text, a run a line. Usage: show.js GRAMMAR NOTE

'use strict';

const fs = require('fs');
const onig = require('vscode-oniguruma');
const textmate = require('vscode-textmate');

const wasm = fs.readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm'));
const [grammar, note] = process.argv.slice(2);

async function main() {
	await onig.loadWASM(wasm.buffer.slice(wasm.byteOffset,
		wasm.byteOffset + wasm.byteLength));
	const registry = new textmate.Registry({
		onigLib: Promise.resolve({
			createOnigScanner: (patterns) => new onig.OnigScanner(patterns),
			createOnigString: (text) => new onig.OnigString(text),
		}),
		loadGrammar: async () =>
			textmate.parseRawGrammar(fs.readFileSync(grammar, 'utf8'), grammar),
	});
	const loaded = await registry.loadGrammar('source.rangeline');
	let state = textmate.INITIAL;
	fs.readFileSync(note, 'utf8').split('\n').forEach((line, i) => {
		const result = loaded.tokenizeLine(line, state);
		state = result.ruleStack;
		for (const token of result.tokens) {
			const text = line.slice(token.startIndex, token.endIndex);
			const scope = token.scopes[token.scopes.length - 1];
			if (text)
				console.log(`${i + 1}\t${scope}\t${text}`);
		}
	});
}

main().catch((error) => { console.error(error); process.exit(1); });
