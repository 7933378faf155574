// Reads MusicXML files with verovio and prints what it understood, one JSON
// object to a line: {"file", "log", "notes": [{"id", "pitch", "onset",
// "duration"}]}. Onsets and durations are in quarter notes of the score,
// pitches are MIDI keys. "log" holds every warning and error.
//
// node engrave.mjs FILE...            the notes
// node engrave.mjs --time N FILE...   milliseconds for N engravings, and bytes
import { readFileSync } from 'node:fs';
import createVerovioModule from 'verovio/wasm';
import { VerovioToolkit } from 'verovio/esm';

let log = [];
for (const level of ['warn', 'error', 'log', 'info', 'debug']) {
  console[level] = (...words) => log.push(words.join(' ').trim());
}
process.stderr.write = (text) => { log.push(String(text).trim()); return true; };

const module = await createVerovioModule({
  print: (text) => log.push(text),
  printErr: (text) => log.push(text),
});
const toolkit = new VerovioToolkit(module);

function notes() {
  const open = new Map();
  const heard = [];
  for (const moment of toolkit.renderToTimemap()) {
    for (const id of moment.off ?? []) {
      const note = open.get(id);
      if (note) note.duration = moment.qstamp - note.onset;
      open.delete(id);
    }
    for (const id of moment.on ?? []) {
      const note = { id, pitch: toolkit.getMIDIValuesForElement(id).pitch, onset: moment.qstamp, duration: 0 };
      open.set(id, note);
      heard.push(note);
    }
  }
  return heard;
}

function report(file) {
  log = [];
  const loaded = toolkit.loadData(readFileSync(file, 'utf8'));
  const found = loaded ? notes() : [];
  if (!loaded) log.push('not loaded');
  const said = [...log, toolkit.getLog()].filter((text) => text);
  process.stdout.write(JSON.stringify({ file, log: said, notes: found }) + '\n');
}

function time(file, rounds) {
  const text = readFileSync(file, 'utf8');
  const start = performance.now();
  let bytes = 0;
  for (let i = 0; i < rounds; i++) {
    toolkit.loadData(text);
    bytes = toolkit.renderToSVG(1).length;
  }
  process.stdout.write(JSON.stringify({ file, ms: (performance.now() - start) / rounds, bytes }) + '\n');
}

const files = process.argv.slice(2);
if (files[0] === '--time') {
  for (const file of files.slice(2)) time(file, Number(files[1]));
} else {
  for (const file of files) report(file);
}
