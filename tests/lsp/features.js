// Completion, hover, quick fixes, symbols, colours, formatting, hints: called
// by test.js, which starts the clients.
'use strict';

const { spawnSync } = require('node:child_process');
const { everything, lsp } = require('./client');
const { corpus, example } = require('./notes');
const { withEdits } = require('./places');

module.exports = (t) => {
  const { test, assert, start, stop, complete, labels, hover, actions, made,
    uri, program, today } = t;
  const session = 'session 2026-05-04\n';
  const has = (items, ...words) => {
    for (const word of words)
      assert.ok(labels(items).includes(word),
        `${word} is not among ${labels(items)}`);
  };
  const misses = (items, ...words) => {
    for (const word of words)
      assert.ok(!labels(items).includes(word),
        `${word} is among ${labels(items)}`);
  };

  // --- completion ---

  test('a line begins with joints and headers', async () => {
    const client = await start();
    const items = await complete(client, '|');
    has(items, 'knee', 'index', 'great-toe', 'subject', 'session', 'R', 'A');
    misses(items, 'flexion', 'firm', 'lacks', 'pain', 'passive', 'deg');
    const first = [...items].sort((a, b) => (a.sortText < b.sortText ? -1 : 1));
    assert.equal(first[0].label, 'shoulder');
    await stop(client);
  });

  test('a joint is followed by its own motions alone', async () => {
    const client = await start();
    const motions = async (text) => labels(await complete(client, text))
      .filter((label) => /^(flexion|extension|.*duction|.*rotation|.*flexion|.*nation|.*version|.*deviation|opening|scaption)$/
        .test(label)).sort();
    assert.deepEqual(await motions(`${session}elbow |`),
      ['extension', 'flexion']);
    assert.deepEqual(await motions(`${session}forearm R |`),
      ['pronation', 'supination']);
    assert.deepEqual(await motions(`${session}subtalar |`),
      ['eversion', 'inversion']);
    assert.deepEqual(await motions(`${session}hip |`), ['abduction',
      'adduction', 'extension', 'external rotation', 'flexion',
      'internal rotation']);
    assert.deepEqual(await motions(`${session}hip flexion |`), []);
    has(await complete(client, `${session}index |`), 'MCP', 'PIP', 'DIP',
      'tip-to-crease');
    misses(await complete(client, `${session}index |`), 'IP', 'MTP', 'CMC',
      'schober');
    has(await complete(client, `${session}pronation |`), 'forearm');
    misses(await complete(client, `${session}pronation |`), 'knee', 'index');
    await stop(client);
  });

  test('sides, modes and positions where they may stand', async () => {
    const client = await start();
    has(await complete(client, `${session}knee |`), 'R', 'L', 'A', 'P',
      'supine', 'weight-bearing', 'hip-flexed');
    misses(await complete(client, `${session}elbow |`), 'weight-bearing');
    misses(await complete(client, `${session}cervical flexion |`), 'R', 'L');
    has(await complete(client, `${session}cervical rotation |`), 'R', 'L');
    misses(await complete(client, `${session}knee R |`), 'R', 'L');
    misses(await complete(client, `${session}knee R A |`), 'R', 'A', 'P');
    has(await complete(client, `${session}shoulder ER |`), 'abducted-90');
    has(await complete(client, `${session}knee R A 0-10 |`), 'P', 'L', 'pain',
      'stopped-by', 'by', 'with');
    misses(await complete(client, `${session}knee R A 0-10 |`), 'knee',
      'flexion', 'supine', 'fixed', 'lacks');
    has(await complete(client, `${session}knee extension R A |`), 'lacks',
      'hyper', 'fixed', 'NT', 'WNL');
    misses(await complete(client, `${session}shoulder flexion R A |`), 'lacks',
      'hyper');
    await stop(client);
  });

  test('what follows a word that asks for it', async () => {
    const client = await start();
    assert.deepEqual(
      labels(await complete(client, `${session}knee R A 0-10 stopped-by |`)),
      ['pain', 'stiffness', 'weakness', 'guarding', 'apprehension',
        'swelling']);
    assert.deepEqual(labels(await complete(client, 'instrument |')),
      ['goniometer', 'inclinometer', 'visual', 'tape', 'ruler']);
    assert.deepEqual(labels(await complete(client, 'sex |')), ['F', 'M', 'X']);
    assert.deepEqual(labels(await complete(client, 'session |')),
      ['2026-06-01']);
    assert.deepEqual(labels(await complete(client, 'require |')).slice(0, 3),
      ['active', 'passive', 'opposite']);
    has(await complete(client, 'precaution right knee |'), 'flexion', 'max',
      'no');
    has(await complete(client, 'precaution right knee max 40 |'), 'from',
      'until');
    has(await complete(client, 'involved right |'), 'hand', 'knee', 'thumb');
    has(await complete(client, 'involved |'), 'R', 'B', 'jaw', 'spine',
      'none');
    misses(await complete(client, 'involved |'), 'knee', 'hand', 'thumb');
    has(await complete(client, `${session}shoulder HBB R |`), 'T7', 'L5');
    misses(await complete(client, `${session}knee R |`), 'T7', 'L5');
    await stop(client);
  });

  test('end feels: usual ones first, none on an active reading', async () => {
    const client = await start();
    const items = (await complete(client, `${session}elbow flexion R P 0-140 |`))
      .filter((i) => ['soft', 'firm', 'hard', 'empty'].includes(i.label))
      .sort((a, b) => (a.sortText < b.sortText ? -1 : 1));
    assert.equal(items[0].label, 'soft');
    assert.equal(items[0].detail, 'usual for this motion');
    assert.equal(items.length, 4);
    misses(await complete(client, `${session}elbow flexion R A 0-140 |`),
      'soft', 'firm');
    await stop(client);
  });

  test('codes of the note: people with people, raters with raters',
    async () => {
      const client = await start();
      const note = 'subject AB-1\nRATER dk\n' +
        `${session}knee R A 0-140 by xy\nsubject AB-2\nrater dk\n`;
      assert.deepEqual(labels(await complete(client, `${note}rater |`)),
        ['dk', 'xy']);
      assert.deepEqual(labels(await complete(client, `${note}subject |`)),
        ['AB-1', 'AB-2']);
      assert.deepEqual(
        labels(await complete(client, `${note}${session}knee R A 0-9 by |`)),
        ['dk', 'xy']);
      await stop(client);
    });

  test('a line that goes on, below what it goes on with', async () => {
    const client = await start();
    const above = `${session}shoulder hand-behind-back R T7\n`;
    has(await complete(client, `${above}L |`), 'T7');
    has(await complete(client, `mode active\n${session}knee R 0-10\n\nL 0-9 |`),
      'pain');
    misses(await complete(client, `${session}knee R 0-10 |`), 'pain');
    // Under a line that could not be read nothing can go on.
    misses(await complete(client, `${session}kne R A 0-10\nL A 0-9 |`), 'pain');
    await stop(client);
  });

  test('nothing in texts, in comments, behind what is wrong', async () => {
    const client = await start();
    for (const text of [`${session}knee R A 0-10 "kn|`, '# kn|',
      `${session}knee R A 0-10 # fir|`, `${session}knee x R A 0-10 |`])
      assert.deepEqual(labels(await complete(client, text)), [], text);
    await stop(client);
  });

  test('rule names behind accept', async () => {
    const client = await start();
    const items = await complete(client,
      `subject A-1\n${session}hip flexion R A 0-120 P 0-90 firm # accept |`);
    has(items, 'passive-below-active', 'off-scale');
    misses(items, 'syntax', 'unknown-word');
    const first = items.filter((i) => i.sortText.startsWith('0'))
      .map((i) => i.label);
    assert.ok(first.includes('passive-below-active'));
    assert.ok(!first.includes('off-scale'));
    assert.deepEqual(labels(await complete(client,
      `${session}hip flexion R A 0-120 # accept off-scale: no|`)), []);
    await stop(client);
  });

  test('what is typed is replaced, in words of several parts too',
    async () => {
      const client = await start();
      for (const [marked, label, gives] of [
        [`${session}hip internal ro|`, 'internal rotation',
          `${session}hip internal rotation`],
        [`${session}hip fl|`, 'flexion', `${session}hip flexion`],
        [`${session}hip lateral |`, 'flexion', null],
        [`${session}index M|`, 'PIP', `${session}index PIP`],
      ]) {
        const items = await complete(client, marked);
        const item = items.find((i) => i.label === label);
        if (!gives) {
          assert.equal(item, undefined, marked);
          continue;
        }
        assert.equal(withEdits(marked.replace('|', ''), [item.textEdit]),
          gives);
      }
      const item = (await complete(client, `${session}hip IR|`))
        .find((i) => i.label === 'internal rotation');
      assert.equal(item.filterText, 'IR');
      await stop(client);
    });

  // The reader itself is asked, so this can fail only where the answer is
  // used wrongly: every word offered behind a beginning must be read there.
  test('no word is offered that check would refuse', async () => {
    const client = await start();
    const begins = ['', 'knee ', 'knee R ', 'hip ', 'index ', 'index R A MCP ',
      'knee R P 0-10 ', 'cervical ', 'jaw ', 'shoulder HBB R ', 'ankle DF R ',
      'involved right ', 'precaution right knee ', 'goal right knee ',
      'instrument goniometer ', 'position ', 'mode ', 'dominant ', 'age '];
    let tried = 0;
    for (const begin of begins)
      for (const item of await complete(client, `${session}${begin}|`)) {
        const text = `${session}${begin}${item.label}\n`;
        const at = begin.length + item.label.length;
        const refused = (await client.open(uri, text)).filter((f) =>
          f.range.start.line === 1 && f.range.start.character < at &&
          ['syntax', 'unknown-word', 'motion-not-of-joint',
            'side-not-of-motion', 'number-form', 'date-form'].includes(f.code));
        assert.deepEqual(refused, [], text);
        tried++;
      }
    assert.ok(tried > 300, `${tried} words`);
    await stop(client);
  });

  test('documentation: usual value with its source, how to measure',
    async () => {
      const client = await start();
      const item = (await complete(client, `${session}elbow fl|`))
        .find((i) => i.label === 'flexion');
      const whole = await client.connection.sendRequest(
        lsp.CompletionResolveRequest.type, item);
      assert.equal(whole.documentation.kind, 'markdown');
      assert.match(whole.documentation.value, /usual: \d+.* degrees \(.+\)/);
      assert.match(whole.documentation.value, /fulcrum: .+/);
      assert.match(whole.documentation.value, /basis: .+/);
      assert.equal(whole.label, 'flexion');
      const odd = await client.connection.sendRequest(
        lsp.CompletionResolveRequest.type,
        { label: 'x', data: { class: 17, id: 999, measurement: 9999 } });
      assert.equal(odd.documentation, undefined);
      await stop(client);
    });

  // --- hover ---

  test('hover over a reading: figures, other side, last session, usual',
    async () => {
      const client = await start();
      const lines = example.split('\n');
      lines[14] = lines[14].replace('0-54', '0-|54');
      const text = await hover(client, lines.join('\n'));
      assert.match(text, /\*\*right forearm pronation, active\*\*/);
      assert.match(text, /measured: 0-53 \(3\), arc 53, spread of the trials 2/);
      assert.match(text, /left: 0-78; right less left -25/);
      assert.match(text, /passive less active: \+8/);
      assert.match(text, /last session: 0-41 on 2026-04-06; change \+12/);
      assert.match(text, /usual: [\d.]+ degrees \(.+\)/);
      await stop(client);
    });

  test('hover over a hinge tells both motions; a gain from a lack', async () => {
    const client = await start();
    const text = await hover(client, 'subject A-1\nsession 2026-04-04\n' +
      'knee extension R P lacks 10\nsession 2026-05-04\nknee R P 5-12|0 firm');
    assert.match(text, /right knee flexion, passive/);
    assert.match(text, /right knee extension, passive/);
    assert.match(text, /measured: lacks 5/);
    assert.match(text, /last session: lacks 10 on 2026-04-04; change \+5/);
    await stop(client);
  });

  test('hover: less is better is said, another person is not compared',
    async () => {
      const client = await start();
      const note = (who) => `subject A-1\nsession 2026-04-04\n` +
        `index tip-to-crease R 30 mm\nsubject ${who}\nsession 2026-05-04\n` +
        'index tip-to-crease R 2|0 mm\n';
      assert.match(await hover(client, note('A-1')),
        /change -10 mm \(less is better\)/);
      assert.doesNotMatch(await hover(client, note('A-2')), /last session/);
      await stop(client);
    });

  test('hover over words, and nothing over nothing', async () => {
    const client = await start();
    assert.match(await hover(client, 'pre|caution right knee no flexion'),
      /must not be done/);
    assert.match(await hover(client, `${session}kn|ee flexion R A 0-140`),
      /knee flexion[^]*How it is measured/);
    assert.match(await hover(client, `${session}knee R P 0-140 em|pty`),
      /do not press on/);
    assert.equal(await hover(client, '# a com|ment'), null);
    assert.equal(await hover(client, '|'), null);
    const simple = await start({});
    assert.doesNotMatch(
      await hover(simple, `${session}kn|ee flexion R A 0-140`), /\*\*/);
    await stop(simple);
    await stop(client);
  });

  // --- quick fixes ---

  test('a misspelt word is respelled', async () => {
    const client = await start();
    const text = `${session}knee flexoin R A 0-120\n`;
    const [fix] = await actions(client, text, 'unknown-word');
    assert.equal(fix.kind, 'quickfix');
    assert.equal(fix.isPreferred, true);
    assert.equal(made(text, fix), `${session}knee flexion R A 0-120\n`);
    assert.equal(fix.diagnostics[0].code, 'unknown-word');
    const cause = `${session}knee R A 0-120 stopped-by weaknes\n`;
    assert.match(
      made(cause, (await actions(client, cause, 'unknown-word'))[0]),
      /stopped-by weakness\n/);
    const header = 'subjct A-1\n';
    assert.equal(
      made(header, (await actions(client, header, 'unknown-word'))[0]),
      'subject A-1\n');
    assert.deepEqual(
      await actions(client, `${session}knee zzzzqqq R A 0-9\n`, 'unknown-word'),
      []);
    await stop(client);
  });

  test('an ambiguous extension: both meanings, the figure as it was',
    async () => {
      const client = await start();
      const text = `${session}knee extension R A 10 L A 0-5\n`;
      const fixes = await actions(client, text, 'ambiguous-extension');
      assert.deepEqual(fixes.map((f) => made(text, f)), [
        `${session}knee extension R A lacks 10 L A 0-5\n`,
        `${session}knee extension R A hyper 10 L A 0-5\n`]);
      assert.ok(fixes.every((f) => !f.isPreferred));
      await stop(client);
    });

  test('a finding is accepted, the cursor at the reason', async () => {
    const client = await start();
    for (const [text, gives, cursor] of [
      ['hip flexion R A 0-120 P 0-90 firm',
        'hip flexion R A 0-120 P 0-90 firm  # accept passive-below-active: ',
        [1, 66]],
      ['  hip flexion R A 0-120 P 0-90 firm # note',
        '  # accept passive-below-active: \n' +
        '  hip flexion R A 0-120 P 0-90 firm # note', [1, 33]],
      ['hip flexion R A 0-120 P 0-90 firm # accept end-feel-on-active: x',
        'hip flexion R A 0-120 P 0-90 firm # accept end-feel-on-active, ' +
        'passive-below-active: x', null],
      ['hip flexion R A 0-120 P 0-90 firm   ',
        'hip flexion R A 0-120 P 0-90 firm  # accept passive-below-active: ',
        [1, 66]],
    ]) {
      const note = `${session}${text}\n`;
      const fix = (await actions(client, note, 'passive-below-active'))
        .find((f) => f.title.startsWith('Accept passive-below-active'));
      assert.equal(made(note, fix), `${session}${gives}\n`);
      if (!cursor) {
        assert.equal(fix.command, undefined);
        continue;
      }
      assert.deepEqual(fix.command.arguments, [uri, ...cursor]);
      client.shown = [];
      await client.connection.sendRequest(lsp.ExecuteCommandRequest.type,
        fix.command);
      assert.deepEqual(client.shown[0].selection.start,
        { line: cursor[0], character: cursor[1] });
      const after = await client.open(uri, made(note, fix).replace(
        'passive-below-active: ', 'passive-below-active: guarded'));
      assert.ok(!after.some((f) => f.code === 'passive-below-active'));
    }
    await stop(client);
  });

  test('CRLF stays CRLF when a line is put in', async () => {
    const client = await start();
    const note = 'session 2026-05-04\r\nhip flexion R A 0-120 P 0-90 firm # n\r\n';
    const fix = (await actions(client, note, 'passive-below-active'))
      .find((f) => f.title.startsWith('Accept passive-below-active'));
    assert.equal(made(note, fix), 'session 2026-05-04\r\n' +
      '# accept passive-below-active: \r\n' +
      'hip flexion R A 0-120 P 0-90 firm # n\r\n');
    await stop(client);
  });

  test('what could not be read is never offered for acceptance', async () => {
    const client = await start();
    for (const note of corpus().notes) {
      const findings = await client.open(uri, note.text);
      for (const f of findings.slice(0, 20)) {
        const fixes = await client.request(lsp.CodeActionRequest.type, uri,
          { range: f.range, context: { diagnostics: [f] } });
        for (const fix of fixes)
          if (/^Accept /.test(fix.title))
            assert.ok(!['syntax', 'unknown-word', 'motion-not-of-joint',
              'side-not-of-motion', 'number-form', 'ambiguous-extension',
              'date-form', 'open-quote', 'encoding', 'line-too-long']
              .includes(fix.diagnostics[0].code), note.name);
      }
    }
    await stop(client);
  });

  // Every figure of the note, in order: what no fix may touch.
  const figures = (text) => text.match(/\d+(\.\d+)?/g);

  test('no quick fix of any note of the corpus makes or changes a figure',
    async () => {
      const client = await start();
      let tried = 0;
      for (const note of corpus().notes) {
        const findings = await client.open(uri, note.text);
        for (const f of findings.slice(0, 30)) {
          const fixes = await client.request(lsp.CodeActionRequest.type, uri,
            { range: f.range, context: { diagnostics: [f] } });
          for (const fix of fixes) {
            const bare = (s) => figures(s.replace(/#.*/g, ''));
            const spelled = fix.title.startsWith("Write '") &&
              fix.diagnostics[0].code === 'unknown-word';
            if (!spelled)
              assert.deepEqual(bare(made(note.text, fix)), bare(note.text),
                `${note.name}: ${fix.title}`);
            tried++;
          }
        }
      }
      assert.ok(tried > 80, `${tried} fixes`);
      await stop(client);
    });

  test('room for the other side, its figure left to be measured',
    async () => {
      const client = await start();
      for (const [line, gives] of [
        ['knee R A 0-120 P 0-130 firm', 'knee R A 0-120 P 0-130 firm  L A '],
        ['knee L P 0-130 firm # x', 'knee L P 0-130 firm  R P  # x'],
        ['index R A MCP 0-80 PIP 0-90', 'index R A MCP 0-80 PIP 0-90  L A MCP '],
      ]) {
        const joint = line.split(' ')[0];
        const side = / R /.test(line) ? 'right' : 'left';
        const note = `subject A-1\ninvolved ${side} ${joint}\n` +
          `${session}${line}\n`;
        const fix = (await actions(client, note, 'missing-opposite'))
          .find((f) => f.title.startsWith('Make room'));
        assert.equal(made(note, fix).split('\n')[3], gives);
      }
      await stop(client);
    });

  test('idle acceptances are taken out, bare ones get their reason',
    async () => {
      const client = await start();
      for (const [line, gives] of [
        ['knee R A 0-140 # accept off-scale: x', 'knee R A 0-140'],
        ['# accept off-scale: x', ''],
      ]) {
        const note = `${session}${line}\n`;
        const fix = (await actions(client, note, 'acceptance-unused'))[0];
        assert.equal(made(note, fix), `${session}${gives}\n`);
      }
      const two = `${session}hip flexion R A 0-120 P 0-90 firm ` +
        '# accept off-scale, passive-below-active: x\n';
      assert.match(made(two, (await actions(client, two,
        'acceptance-unused'))[0]), /# accept passive-below-active: x\n$/);
      const last = two.replace('off-scale, passive-below-active',
        'passive-below-active, off-scale');
      assert.match(made(last, (await actions(client, last,
        'acceptance-unused'))[0]), /# accept passive-below-active: x\n$/);
      const bare = `${session}hip flexion R A 0-120 P 0-90 firm ` +
        '# accept passive-below-active\n';
      const [fix] = await actions(client, bare, 'acceptance-without-reason');
      assert.match(made(bare, fix), /passive-below-active: \n$/);
      await stop(client);
    });

  test('only quick fixes, and only where they are wanted', async () => {
    const client = await start();
    const text = `${session}knee flexoin R A 0-120\n`;
    assert.deepEqual(await actions(client, text, 'unknown-word',
      { only: ['source.organizeImports'] }), []);
    assert.equal((await actions(client, text, 'unknown-word',
      { only: ['quickfix'] })).length, 1);
    assert.deepEqual(await client.request(lsp.CodeActionRequest.type, uri,
      { range: { start: { line: 0, character: 0 },
        end: { line: 0, character: 1 } }, context: { diagnostics: [] } }), []);
    await stop(client);
  });

  // --- symbols, folding ---

  test('people hold sessions, sessions hold joints', async () => {
    const client = await start();
    await client.open(uri, example);
    const symbols = await client.request(
      lsp.DocumentSymbolRequest.type, uri);
    const tree = (list) =>
      list.map((s) => [s.name, s.range.start.line, s.range.end.line,
        tree(s.children)]);
    assert.deepEqual(tree(symbols), [['WR-0192', 1, 16, [
      ['2026-04-06', 9, 11, [['forearm', 10, 10, []], ['elbow', 11, 11, []]]],
      ['2026-05-04 "week 5"', 13, 16,
        [['forearm', 14, 15, []], ['elbow', 16, 16, []]]]]]]);
    await stop(client);
    const simple = await start({});
    await simple.open(uri, example);
    const flat = await simple.request(lsp.DocumentSymbolRequest.type, uri);
    assert.deepEqual(flat.map((s) => [s.name, s.containerName]), [
      ['WR-0192', undefined], ['2026-04-06', 'WR-0192'],
      ['forearm', '2026-04-06'], ['elbow', '2026-04-06'],
      ['2026-05-04 "week 5"', 'WR-0192'], ['forearm', '2026-05-04 "week 5"'],
      ['elbow', '2026-05-04 "week 5"']]);
    await stop(simple);
  });

  const before = (a, b) => a.line < b.line ||
    (a.line === b.line && a.character <= b.character);

  test('in every note, ranges of symbols nest and follow each other',
    async () => {
      const client = await start();
      const look = (list, outer, name) => {
        let last = outer.start;
        for (const s of list) {
          assert.ok(before(last, s.range.start) &&
            before(s.range.end, outer.end), `${name}: ${s.name}`);
          assert.ok(before(s.range.start, s.selectionRange.start) &&
            before(s.selectionRange.end, s.range.end), `${name}: ${s.name}`);
          assert.ok(s.name.length > 0);
          look(s.children, s.range, name);
          last = s.range.end;
        }
      };
      for (const note of corpus().notes) {
        await client.open(uri, note.text);
        look(await client.request(lsp.DocumentSymbolRequest.type, uri),
          { start: { line: 0, character: 0 },
            end: { line: 1e9, character: 0 } }, note.name);
      }
      await stop(client);
    });

  test('people, sessions and runs of comments fold', async () => {
    const client = await start();
    await client.open(uri, `# a\n# b\n${example}`);
    const folds = await client.request(lsp.FoldingRangeRequest.type, uri);
    const rows = folds.map((f) => [f.startLine, f.endLine, f.kind]);
    assert.ok(rows.some((r) => r[0] === 0 && r[1] === 2 && r[2] === 'comment'));
    assert.ok(rows.some((r) => r[0] === 3 && r[1] === 18));
    assert.ok(rows.some((r) => r[0] === 11 && r[1] === 13));
    for (const [first, last] of rows)
      assert.ok(first < last);
    await stop(client);
  });

  // --- semantic tokens ---

  // [word, type] of each token.
  function read(text, data, legend) {
    const lines = text.split(/\r\n|\n|\r/);
    const words = [];
    let line = 0;
    let at = 0;
    for (let i = 0; i < data.length; i += 5) {
      at = data[i] ? data[i + 1] : at + data[i + 1];
      line += data[i];
      const word = lines[line].slice(at, at + data[i + 2]);
      assert.equal(word.length, data[i + 2]);
      words.push([word, legend.tokenTypes[data[i + 3]], line]);
    }
    return words;
  }

  test('each word by what it is; what is misspelt stays plain', async () => {
    const client = await start();
    const { legend } = client.capabilities.semanticTokensProvider;
    const text = 'subject A-1 # “x”\nknee flexion R A 0–120° pain 3 "ü" by dk\n' +
      'kneee R P 0-3 firm\nHBB R T7\nL T5\n';
    await client.open(uri, text);
    const { data } = await client.request(
      lsp.SemanticTokensRequest.type, uri);
    const words = read(text, data, legend);
    for (const [word, type] of [['subject', 'keyword'], ['A-1', 'variable'],
      ['# “x”', 'comment'], ['knee', 'class'], ['flexion', 'function'],
      ['R', 'enumMember'], ['0–120', 'number'], ['°', 'type'],
      ['pain', 'keyword'], ['3', 'number'], ['"ü"', 'string'],
      ['dk', 'variable'], ['firm', 'modifier'], ['HBB', 'function'],
      ['T7', 'number'], ['T5', 'number']])
      assert.ok(words.some((w) => w[0] === word && w[1] === type),
        `${word} ${type} in ${JSON.stringify(words)}`);
    assert.ok(!words.some((w) => w[0] === 'kneee'));
    const part = await client.request(lsp.SemanticTokensRangeRequest.type, uri,
      { range: { start: { line: 3, character: 0 },
        end: { line: 4, character: 0 } } });
    assert.deepEqual(read(text, part.data, legend),
      words.filter((w) => w[2] >= 3));
    await stop(client);
  });

  test('in every note, tokens follow each other within their lines',
    async () => {
      const client = await start();
      const { legend } = client.capabilities.semanticTokensProvider;
      for (const note of corpus().notes) {
        await client.open(uri, note.text);
        const { data } = await client.request(
          lsp.SemanticTokensRequest.type, uri);
        read(note.text, data, legend);
        for (let i = 5; i < data.length; i += 5)
          assert.ok(data[i] > 0 || data[i + 1] >= data[i - 3], note.name);
      }
      await stop(client);
    });

  // --- formatting ---

  const options = { tabSize: 8, insertSpaces: false };

  test('formatting every note gives what tidy gives, byte for byte',
    async () => {
      for (const spelling of ['long', 'short', 'keep']) {
        const client = await start(everything, { spelling });
        for (const note of corpus().notes) {
          await client.open(uri, note.text);
          const edits = await client.request(
            lsp.DocumentFormattingRequest.type, uri, { options });
          const tidy = spawnSync(program,
            ['tidy', '--spelling', spelling, note.path],
            { encoding: 'utf8', maxBuffer: 1 << 28 });
          assert.equal(withEdits(note.text, edits), tidy.stdout, note.name);
        }
        await stop(client);
      }
    });

  test('formatting a part changes that part alone', async () => {
    const client = await start();
    const text = `${session}hip flex R A 0-120\nhip ext  R A 0-12\n`;
    await client.open(uri, text);
    const edits = await client.request(
      lsp.DocumentRangeFormattingRequest.type, uri,
      { options, range: { start: { line: 1, character: 0 },
        end: { line: 2, character: 0 } } });
    assert.equal(withEdits(text, edits),
      `${session}hip flexion    R A 0-120\nhip ext  R A 0-12\n`);
    const typed = await client.request(
      lsp.DocumentOnTypeFormattingRequest.type, uri,
      { options, ch: '\n', position: { line: 3, character: 0 } });
    assert.equal(withEdits(text, typed),
      `${session}hip flex R A 0-120\nhip extension  R A 0-12\n`);
    await stop(client);
  });

  // --- inlay hints ---

  const all = { start: { line: 0, character: 0 },
    end: { line: 1000, character: 0 } };

  test('inlay hints: off, then on when they are set', async () => {
    const client = await start();
    await client.open(uri, example);
    assert.equal(await client.request(
      lsp.InlayHintRequest.type, uri, { range: all }), null);
    await client.connection.sendNotification(
      'workspace/didChangeConfiguration',
      { settings: { rangeline: { inlayHints: true } } });
    const hints = await client.request(
      lsp.InlayHintRequest.type, uri, { range: all });
    assert.equal(client.refreshed, 1);
    const at = (line) => hints.filter((h) => h.position.line === line)
      .map((h) => h.label).sort();
    assert.deepEqual(at(14), ['passive less active +6',
      'passive less active +8', 'right less left -23',
      'right less left -25']);
    const lines = example.split('\n');
    const one = hints.find((h) => h.label === 'passive less active +8');
    assert.equal(
      lines[14].slice(0, one.position.character).endsWith('P 0-61 firm'), true);
    const part = await client.request(lsp.InlayHintRequest.type, uri,
      { range: { start: { line: 14, character: 0 },
        end: { line: 15, character: 0 } } });
    assert.deepEqual(part, hints.filter((h) => h.position.line === 14));
    await stop(client);
  });

  // --- commands ---

  test('the summary of the note and of one session', async () => {
    const client = await start();
    for (const note of corpus().notes) {
      await client.open(uri, note.text);
      const text = await client.connection.sendRequest(
        lsp.ExecuteCommandRequest.type,
        { command: 'rangeline.summary', arguments: [uri] });
      const { stdout } = spawnSync(program,
        ['summary', ...today, note.path],
        { encoding: 'utf8', maxBuffer: 1 << 28 });
      assert.equal(text, stdout, note.name);
    }
    await client.open(uri, example);
    const one = await client.connection.sendRequest(
      lsp.ExecuteCommandRequest.type,
      { command: 'rangeline.summary', arguments: [uri, 10] });
    assert.match(one, /session 2026-04-06/);
    assert.doesNotMatch(one, /session 2026-05-04/);
    await stop(client);
  });
};
