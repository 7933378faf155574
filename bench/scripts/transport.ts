// Playing: passes follow one another by the audio clock, each scheduled a
// little ahead of time, so that loops close on the sample and a change of
// tempo or of a word comes in on a note without a gap.
import { Ladder } from "./ladder";
import { byId, checked, reason, say, shown } from "./page";
import { type Buses, drop, end, endAt, type Kind, type Pass, positionAt, schedule } from "./passes";
import { partNames, type PartName, SoundCase, type Sounds, tuneOf, withTempo } from "./sounds";

const aheadS = 1.2; // how far ahead passes are scheduled; longer than a hidden page's timer sleeps
const tickMS = 80;
const played = ["vamp", "tone", "articulation"]; // the choices that change what is rendered
const soonS = 0.06; // what the audio thread needs to take up a change

/** playedAs is the part of a sound's address that says how it is played. */
export function playedAs(): string {
  return played.map((id) => `&${id}=${encodeURIComponent(byId(id, HTMLSelectElement)?.value ?? "")}`).join("");
}

/** A Range is the notes that repeat, first and last included. */
export interface Range {
  first: number;
  last: number;
}

export class Transport {
  context: AudioContext | null = null;
  passes: Pass[] = []; // scheduled, oldest first
  range: Range | null = null;
  readonly levels = new Map<PartName | "count", GainNode>();

  #buses: Buses | null = null;
  #ladder = new Ladder(() => this.exerciseChanged());
  #sounds: SoundCase | null = null;
  #current: Sounds | null = null;
  #nextSounds: Sounds | null = null; // of the ladder's next rung
  #timer = 0;
  #loop = 0;
  #wish = 0; // counts requests, so that only the last one counts
  #listeners: (() => void)[] = [];

  constructor() {
    const button = byId("play", HTMLButtonElement);
    button?.addEventListener("click", () => void this.toggle());
    for (const type of ["pointerenter", "focus"]) button?.addEventListener(type, () => this.#warm());
    for (const id of played) byId(id, HTMLSelectElement)?.addEventListener("change", () => this.exerciseChanged());
  }

  get playing(): boolean {
    return this.#timer !== 0;
  }

  /** onChange calls back whenever playing starts or stops or levels exist. */
  onChange(listener: () => void): void {
    this.#listeners.push(listener);
  }

  async toggle(from?: number): Promise<void> {
    if (this.playing) this.stop();
    else await this.play(from);
  }

  /** play starts at the range's first note, or at another. */
  async play(from?: number): Promise<void> {
    const context = this.open();
    const wish = ++this.#wish;
    const resumed = context.resume();
    say("Preparing the sound…");
    let sounds: Sounds;
    try {
      sounds = await this.#load(this.#rung(0));
      await resumed;
    } catch (error) {
      if (wish === this.#wish) say(reason(error));
      return;
    }
    if (wish !== this.#wish) return;
    this.#clear();
    this.#current = sounds;
    this.#loop = 0;
    this.#begin(sounds, from);
    this.#timer = window.setInterval(() => this.#tick(), tickMS);
    this.#tick();
    say("");
    this.#changed();
  }

  stop(): void {
    this.#wish++;
    this.#clear();
    say("");
    this.#changed();
  }

  /** exerciseChanged switches to another spec, tempo, vamp or ladder. */
  exerciseChanged(): void {
    if (this.range && this.range.last >= shown().notes) this.range = null;
    this.#nextSounds = null;
    if (this.playing) void this.#retune();
  }

  /** rangeChanged switches to another run of notes to repeat. */
  rangeChanged(): void {
    if (!this.playing || !this.#current) return;
    this.#turn(this.#current, (position) => {
      const [from, length] = this.#span(this.#current as Sounds);
      const total = (this.#current as Sounds).timeline.samples;
      const inside = (position - from + total) % total < length;
      return inside ? position : from;
    });
  }

  /** goTo continues from a note. */
  goTo(note: number): void {
    if (!this.playing || !this.#current) {
      void this.play(note);
      return;
    }
    const start = this.#current.starts[note] ?? 0;
    this.#turn(this.#current, () => start);
  }

  /** heardAt is the pass that is heard at a time and where it is. */
  heardAt(at: number): { pass: Pass; position: number } | null {
    for (let i = this.passes.length - 1; i >= 0; i--) {
      const pass = this.passes[i];
      if (pass && pass.at <= at) return at < endAt(pass) ? { pass, position: positionAt(pass, at) } : null;
    }
    return null;
  }

  /** heardNow is the time of the audio clock that reaches the ear now. */
  heardNow(): number {
    const context = this.context;
    if (!context) return 0;
    return context.currentTime - (context.outputLatency || context.baseLatency || 0);
  }

  /** tempoNow is the tempo of what is heard. */
  tempoNow(): number {
    const heard = this.playing ? this.heardAt(this.heardNow()) : null;
    return heard?.pass.sounds.timeline.tempo ?? shown().tempo;
  }

  /** open makes the audio graph when it is first needed. */
  open(): AudioContext {
    if (this.context) return this.context;
    const context = new AudioContext({ sampleRate: 48000, latencyHint: "interactive" });
    const master = new GainNode(context, { gain: 0.85 }); // room for parts that add up
    master.connect(context.destination);
    const part = new Map<PartName, AudioNode>();
    const bus = (name: PartName | "count") => {
      const level = new GainNode(context);
      level.connect(master);
      this.levels.set(name, level);
      return level;
    };
    for (const name of partNames) part.set(name, bus(name));
    this.#buses = { part, count: bus("count") };
    this.context = context;
    this.#sounds = new SoundCase(context);
    this.#changed();
    return context;
  }

  // warm fetches the sounds before they are asked for.
  #warm(): void {
    if (this.playing) return;
    this.open();
    this.#load(this.#rung(0)).catch(() => undefined); // play says what is wrong
  }

  #load(query: string): Promise<Sounds> {
    return this.#sounds ? this.#sounds.get(query, playedAs()) : Promise.reject(new Error("no sound is open"));
  }

  // rung is the query to play in a loop: the exercise's own, or higher up the
  // ladder.
  #rung(loop: number): string {
    const { query, tempo } = shown();
    const now = this.#ladder.rung(tempo, loop);
    return now === tempo ? query : withTempo(query, now);
  }

  // span is what repeats, as first sample and length. A pickup, which is at
  // the loop's end, is where it begins.
  #span(sounds: Sounds): [number, number] {
    const { samples: total, pickup } = sounds.timeline;
    const begins = pickup > 0 ? (sounds.starts[0] ?? 0) : 0;
    if (!this.range) return [begins, total];
    const from = sounds.starts[this.range.first] ?? 0;
    const to = sounds.starts[this.range.last + 1] ?? begins;
    return [from, (to - from + total) % total || total];
  }

  // pickupFrom is how many samples a pickup lasts from a position in it to the
  // bar line; none elsewhere, nor in a run that ends before the bar line.
  #pickupFrom(sounds: Sounds, from: number, length: number): number {
    const { samples: total, pickup } = sounds.timeline;
    const rest = pickup > 0 && from >= (sounds.starts[0] ?? total) ? total - from : 0;
    return rest < length ? rest : 0;
  }

  #begin(sounds: Sounds, note?: number): void {
    const context = this.context as AudioContext;
    const rate = sounds.timeline.sample_rate;
    const [first, length] = this.#span(sounds);
    let from = first;
    let rest = length;
    if (note !== undefined) {
      from = sounds.starts[note] ?? first;
      rest = (first + length - from + sounds.timeline.samples) % sounds.timeline.samples || length;
    }
    // The pickup is played into the count-in, and by itself where there is none.
    const bars = Number(byId("count-in", HTMLSelectElement)?.value ?? 0);
    const bar = sounds.count.length;
    const alone = this.#pickupFrom(sounds, from, rest);
    const soon = Math.ceil((context.currentTime + soonS) * rate);
    const head = soon + Math.max(bars * bar, alone);
    for (let left = bars; left > 0; left--) {
      this.#lay({ sounds, kind: "count", loop: -1, at: (head - left * bar) / rate, from: 0, length: bar, alone: 0, voices: [] }, false);
    }
    this.#lay({ sounds, kind: "line", loop: 0, at: (head - alone) / rate, from, length: rest, alone, voices: [] }, false);
  }

  #lay(pass: Pass, joined: boolean): void {
    schedule(this.context as AudioContext, this.#buses as Buses, pass, joined);
    this.passes.push(pass);
  }

  // tick schedules what comes within the time ahead and drops the past.
  #tick(): void {
    const context = this.context;
    if (!context) return;
    for (;;) {
      const last = this.passes[this.passes.length - 1];
      if (!last || endAt(last) > context.currentTime + aheadS) break;
      this.#follow(last);
    }
    while (this.passes.length > 1 && endAt(this.passes[0] as Pass) < context.currentTime - 1) this.passes.shift();
    this.#climb();
  }

  // follow lays the pass after the last one.
  #follow(last: Pass): void {
    const answers = checked("respond");
    let kind: Kind = "line";
    if (answers && last.kind === "line") kind = "response";
    else this.#loop++;
    if (checked("silent") && this.#loop % 2 === 1) kind = "silent";
    let sounds = this.#current as Sounds;
    if (kind !== "response" && this.#nextSounds && this.#nextSounds.query === this.#rung(this.#loop)) {
      sounds = this.#current = this.#nextSounds;
    }
    const [from, length] = this.#span(sounds);
    const total = sounds.timeline.samples;
    const joined = last.sounds === sounds && last.kind === kind && (last.from + last.length) % total === from % total && kind !== "silent";
    const at = endAt(last);
    end(last, at, joined);
    this.#lay({ sounds, kind, loop: this.#loop, at, from, length, alone: 0, voices: [] }, joined);
  }

  // climb fetches the ladder's next rung before its loop begins.
  #climb(): void {
    const query = this.#rung(this.#loop + 1);
    if (query === this.#current?.query || query === this.#nextSounds?.query) return;
    this.#load(query).then(
      (sounds) => {
        if (query === this.#rung(this.#loop + 1)) this.#nextSounds = sounds;
      },
      (error) => say(reason(error)),
    );
  }

  // retune switches to what the page now shows.
  async #retune(): Promise<void> {
    const wish = ++this.#wish;
    let sounds: Sounds;
    try {
      sounds = await this.#load(this.#rung(this.#loop));
    } catch (error) {
      if (wish === this.#wish) say(reason(error));
      return;
    }
    if (wish !== this.#wish || !this.playing) return;
    say("");
    const before = this.#current as Sounds;
    const same = tuneOf(before.query) === tuneOf(sounds.query);
    const ratio = before.timeline.tempo / sounds.timeline.tempo; // new samples to an old one
    this.#current = sounds;
    this.#turn(sounds, (position) => {
      const note = same ? before.starts.indexOf(position) : -1;
      return note >= 0 ? (sounds.starts[note] ?? 0) : Math.round(position * ratio) % sounds.timeline.samples;
    });
  }

  // turn switches to sounds on the next note of what plays, or at once where none
  // is near. place maps the old position to the new one.
  #turn(sounds: Sounds, place: (position: number) => number): void {
    const context = this.context as AudioContext;
    const soonest = context.currentTime + soonS;
    const now = this.passes.find((pass) => pass.at <= soonest && soonest < endAt(pass));
    if (!now || now.kind === "count") {
      this.#clear(true);
      this.#begin(sounds);
      return;
    }
    const rate = now.sounds.timeline.sample_rate;
    const [at, position] = nextNote(now, soonest);
    for (const pass of this.passes) {
      if (pass === now) end(pass, at, false);
      else if (pass.at > soonest) drop(pass);
    }
    now.length = Math.round((at - now.at) * rate);
    this.passes = this.passes.slice(0, this.passes.indexOf(now) + 1);
    const total = sounds.timeline.samples;
    const from = place(position) % total;
    const [first, length] = this.#span(sounds);
    const passed = (from - first + total) % total;
    const inside = passed < length;
    const begins = inside ? from : first;
    const rest = inside ? length - passed : length;
    const alone = at < now.at + now.alone / rate ? this.#pickupFrom(sounds, begins, rest) : 0;
    this.#lay({ sounds, kind: now.kind, loop: now.loop, at, from: begins, length: rest, alone, voices: [] }, false);
  }

  #clear(keepTimer = false): void {
    const at = this.context?.currentTime ?? 0;
    for (const pass of this.passes) {
      if (pass.at > at) drop(pass);
      else end(pass, at, false);
    }
    this.passes = [];
    if (!keepTimer) {
      clearInterval(this.#timer);
      this.#timer = 0;
    }
  }

  #changed(): void {
    const button = byId("play", HTMLButtonElement);
    if (button) button.textContent = this.playing ? "Stop" : "Play";
    for (const listener of this.#listeners) listener();
  }
}

/** nextNote is when and where the next note of a pass begins, if the wait is too
 * short to notice. Otherwise it is the soonest time. */
function nextNote(pass: Pass, soonest: number): [number, number] {
  const patienceS = 0.8;
  const { samples, sample_rate: rate, notes } = pass.sounds.timeline;
  const here = Math.ceil(positionAt(pass, soonest));
  let best = Infinity;
  for (const note of notes) {
    const wait = (note.start - here + samples) % samples;
    if (wait < best) best = wait;
  }
  const wait = best / rate <= patienceS ? best : 0;
  const whole = Math.round((soonest - pass.at) * rate);
  const offset = whole + ((((here + wait - pass.from - whole) % samples) + samples) % samples);
  return [pass.at + offset / rate, (here + wait) % samples];
}
