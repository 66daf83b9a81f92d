// The notes that the tests read: those of the corpus.
'use strict';

const fs = require('node:fs');
const path = require('node:path');

const root = path.join(__dirname, '..', '..');

// Every note of the corpus, by name. JSON carries only UTF-8, so a note that
// is not is listed apart: an editor cannot send it.
function corpus() {
  const notes = [];
  const unsendable = [];
  const walk = (folder) => {
    for (const entry of fs.readdirSync(folder, { withFileTypes: true })) {
      const name = path.join(folder, entry.name);
      if (entry.isDirectory()) {
        walk(name);
      } else if (entry.name.endsWith('.range')) {
        const bytes = fs.readFileSync(name);
        const text = bytes.toString('utf8');
        if (Buffer.from(text, 'utf8').equals(bytes))
          notes.push({ name: path.relative(root, name), path: name, text });
        else
          unsendable.push(path.relative(root, name));
      }
    }
  };
  walk(path.join(root, 'corpus'));
  notes.sort((a, b) => (a.name < b.name ? -1 : 1));
  return { notes, unsendable };
}

const example = `# Invented example
subject     WR-0192
born        1988
sex         F
involved    right forearm, right elbow
rater       dk
instrument  goniometer step 1
precaution  right forearm supination passive max 40 until 2026-05-15 "told"

session 2026-04-06
forearm pronation    R A 0-41 P 0-50 firm    L A 0-78 P 0-84 firm
elbow                R A 12-120 P 10-126 firm/soft

session 2026-05-04 "week 5"
forearm pronation    R A 0-52 0-54 0-53 pain 3   P 0-61 firm    L A 0-78 P 0-84 firm
forearm supination   R A 0-30 P 0-44 firm        L A 0-82 P 0-88 firm
elbow                R A 8-131 P 6-137 firm/soft L A 3-0-146 P 4-0-149 hard/soft
`;

module.exports = { root, corpus, example };
