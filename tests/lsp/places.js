// Places in a text, counted without the server's code: lines as the protocol
// ends them, columns in the units of an encoding.
'use strict';

const units = {
  'utf-8': (text) => Buffer.byteLength(text, 'utf8'),
  'utf-16': (text) => text.length,
  'utf-32': (text) => [...text].length,
};

// {line, character} of byte OFFSET of TEXT.
function placeOfByte(text, offset, encoding) {
  const before = Buffer.from(text, 'utf8').subarray(0, offset).toString('utf8');
  return placeOf(before, encoding, text.slice(before.length));
}

function placeOf(before, encoding, behind = '') {
  // A CR whose LF is still to come ends no line yet.
  const held = before.endsWith('\r') && behind.startsWith('\n');
  const lines = (held ? before.slice(0, -1) : before).split(/\r\n|\n|\r/);
  return {
    line: lines.length - 1,
    character: units[encoding](lines[lines.length - 1]),
  };
}

// The index in TEXT of a {line, character} in UTF-16.
function indexOf(text, place) {
  let at = 0;
  const ends = /\r\n|\n|\r/g;
  for (let line = 0; line < place.line; line++) {
    const end = ends.exec(text);
    at = end.index + end[0].length;
  }
  return at + place.character;
}

// TEXT with edits made, as an editor makes them: all count on the old text.
function withEdits(text, edits) {
  return edits
    .map((e) => ({ beg: indexOf(text, e.range.start),
      end: indexOf(text, e.range.end), by: e.newText }))
    .sort((a, b) => b.beg - a.beg)
    .reduce((t, e) => t.slice(0, e.beg) + e.by + t.slice(e.end), text);
}

module.exports = { units, placeOfByte, placeOf, indexOf, withEdits };
