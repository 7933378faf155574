// One pass is one time through the notes that repeat, from one sample of a
// loop to another, beginning at one sample of the audio clock.
import { partNames, type PartName, type Sounds } from "./sounds";

export type Kind = "count" | "line" | "response" | "silent";

export interface Pass {
  sounds: Sounds;
  kind: Kind;
  loop: number;
  at: number; // seconds of the audio clock
  from: number; // samples from the loop's head
  length: number; // samples
  alone: number; // samples at its beginning in which the band is not in yet
  voices: { source: AudioBufferSourceNode; gain: GainNode }[];
}

/** Buses are where the parts of every pass meet. */
export interface Buses {
  part: Map<PartName, AudioNode>;
  count: AudioNode;
}

const fadeS = 0.008; // long enough not to click, too short to be heard as a fade

/** sounding tells which parts a kind of pass lets through. */
function sounding(kind: Kind, part: PartName): boolean {
  if (kind === "silent") return part === "click";
  if (kind === "response") return part !== "line" && part !== "voice";
  return kind === "line";
}

/** schedule starts a pass. joined says that it continues where another ends. */
export function schedule(context: AudioContext, buses: Buses, pass: Pass, joined: boolean): void {
  if (pass.kind === "count") {
    play(context, pass, pass.sounds.count, buses.count, joined, false, 0);
    return;
  }
  for (const name of partNames) {
    const buffer = pass.sounds.parts.get(name);
    const bus = pass.kind === "silent" ? buses.count : buses.part.get(name);
    const late = name === "line" || name === "voice" ? 0 : pass.alone;
    if (buffer && bus && sounding(pass.kind, name)) play(context, pass, buffer, bus, joined, true, late);
  }
}

function play(context: AudioContext, pass: Pass, buffer: AudioBuffer, bus: AudioNode, joined: boolean, loop: boolean, late: number): void {
  const rate = pass.sounds.timeline.sample_rate;
  const at = pass.at + late / rate;
  const source = new AudioBufferSourceNode(context, { buffer, loop });
  const gain = new GainNode(context, { gain: joined ? 1 : 0 });
  if (!joined) {
    gain.gain.setValueAtTime(0, at);
    gain.gain.linearRampToValueAtTime(1, at + fadeS / 2);
  }
  source.connect(gain).connect(bus);
  source.start(at, ((pass.from + late) % pass.sounds.timeline.samples) / rate);
  pass.voices.push({ source, gain });
}

/** endAt is when a pass ends by itself. */
export function endAt(pass: Pass): number {
  return pass.at + pass.length / pass.sounds.timeline.sample_rate;
}

/** end ends a pass at a time: abruptly where the next one continues it, otherwise
 * with a short fade over the next one's beginning. */
export function end(pass: Pass, at: number, joined: boolean): void {
  for (const { source, gain } of pass.voices) {
    if (joined) {
      source.stop(at);
      continue;
    }
    gain.gain.cancelScheduledValues(at);
    gain.gain.setValueAtTime(1, at);
    gain.gain.linearRampToValueAtTime(0, at + fadeS);
    source.stop(at + fadeS);
  }
}

/** drop cancels a pass that has not begun. */
export function drop(pass: Pass): void {
  for (const { source, gain } of pass.voices) {
    gain.disconnect();
    source.stop();
  }
}

/** positionAt is where in the loop a pass is at a time, in samples. */
export function positionAt(pass: Pass, at: number): number {
  const total = pass.sounds.timeline.samples;
  const position = pass.from + (at - pass.at) * pass.sounds.timeline.sample_rate;
  return pass.kind === "count" ? position : position % total;
}
