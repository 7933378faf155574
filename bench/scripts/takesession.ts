// One take from the count-in to the report.
import { byId, checked, say } from "./page";
import { Recorder, longestS } from "./recorder";
import { Click, type Backing } from "./takeclick";
import { furtherS, knownS, showKnown } from "./takedelay";
import { chosenInput, listInputs } from "./takeinputs";
import { LevelMeter, clockText } from "./takemeter";
import type { LiveMarks } from "./takemarks";
import type { Finished } from "./takereport";
import { LiveSocket } from "./takesocket";
import { writeWAV } from "./wavefile";

const soonS = 0.25; // before the first click, so that nothing is late
const leadS = 0.5; // recorded before the line, for players who come in early
const tailS = 1.5; // recorded after the line, at most a bar, for players who are late
const faintS = 2; // into the line, after which a player would have been heard
const tooLoud = "Recording, but too loud: turn the input down a little.";
const faint = "Recording, but there is no sound from the microphone. Is it on, and is it the right one?";
const latencyMS = 400; // how long a browser may take to know its output's latency

/** What the page says of the exercise. */
export interface Line {
  query: string;
  capture: string; // the audio thread's script
  lineS: number;
  barS: number;
  beats: number; // in a bar
  pickupS: number;
}

/** A Session records one take. */
export class Session {
  /** live tells whether verdicts still come. */
  live = false;
  /** cut tells whether the microphone went away. */
  cut = false;

  #recorder: Recorder;
  #click: Click | null = null;
  #socket: LiveSocket | null = null;
  #meter = new LevelMeter();
  #firstBarS = 0; // in the recording
  #stopping = false;
  #clocks: { wall: number; audio: number } | null = null; // when the take began
  #lostS = 0;
  #following = -1; // note that is kept in sight
  #told = "";

  constructor(
    private context: AudioContext,
    private line: Line,
    private marks: LiveMarks,
    private ended: () => void, // the line is over, or the time
  ) {
    this.#recorder = new Recorder(context);
  }

  /** begin asks for the microphone and counts in; it resolves when the first
   * click is scheduled. */
  async begin(): Promise<void> {
    const { context, line } = this;
    const backing = (byId("take-backing", HTMLSelectElement)?.value ?? "click") as Backing;
    this.#recorder.onGone = () => this.#lose();
    await Promise.all([
      context.resume(),
      this.#recorder.open(line.capture, chosenInput()).finally(listInputs),
      Click.load(context, line.query, backing).then((click) => (this.#click = click)),
    ]);
    await outputKnown(context);
    if (this.#stopping || !this.#click) return;
    const wished = Number(byId("take-count", HTMLSelectElement)?.value ?? 2);
    const barS = this.#click.barS;
    const bars = Math.max(wished, Math.ceil((line.pickupS + leadS) / barS));
    const known = knownS(context, this.#recorder.inputLatencyS);
    showKnown(known);
    this.#firstBarS = line.pickupS + leadS + known + furtherS();
    await this.#listen();
    if (this.#stopping) return;
    const firstBar = this.#click.start(context.currentTime + soonS, bars);
    this.#recorder.start(firstBar - line.pickupS - leadS);
    this.#recorder.onBlock = (samples) => this.#heard(samples, firstBar);
    this.#meter.show(true);
    this.#tell("Count-in");
  }

  /** finish ends the take and hands it over; null where nothing was recorded. */
  async finish(): Promise<Finished | null> {
    this.#stop();
    await this.#socket?.end();
    if (this.#recorder.seconds < leadS) return null;
    const file = writeWAV(this.#recorder.samples(), this.context.sampleRate);
    return { file, name: "take.wav", firstBarS: this.#firstBarS, lostS: this.#lostS, cut: this.cut };
  }

  /** drop ends the take and forgets it. */
  drop(): void {
    this.#stop();
    this.#socket?.close();
  }

  #stop(): void {
    this.#stopping = true;
    this.#recorder.onBlock = () => {};
    this.#recorder.close();
    this.#click?.stop();
    this.#meter.show(false);
    const clock = byId("take-clock", HTMLElement);
    if (clock) clock.textContent = "";
  }

  // listen opens the live socket; without it the take is marked at its end.
  async #listen(): Promise<void> {
    const address = new URL(`/take/live?${this.line.query}&rate=${this.context.sampleRate}&first-bar=${this.#firstBarS.toFixed(4)}`, location.href);
    address.protocol = address.protocol.replace("http", "ws");
    this.#socket = new LiveSocket(
      address.href,
      this.context.sampleRate,
      (news) => this.marks.show(news.marks),
      () => {
        this.live = false;
        this.#tell("Recording. The marks fell behind. They come when you stop.");
      },
    );
    this.live = await this.#socket.opened();
  }

  // lose ends the take when its microphone goes away. What was recorded is marked.
  #lose(): void {
    if (this.#stopping) return;
    this.#stopping = this.cut = true;
    this.ended();
  }

  #heard(samples: Float32Array, firstBar: number): void {
    this.#socket?.send(samples);
    this.#meter.feed(samples);
    this.#compareClocks();
    const after = this.context.currentTime - firstBar;
    const clock = byId("take-clock", HTMLElement);
    if (clock) clock.textContent = clockText(after, this.line.barS, this.line.beats);
    this.#follow(after);
    if (after >= -this.line.pickupS && this.#told === "Count-in") {
      this.#tell(this.live ? "Recording" : "Recording. The marks come when you stop.");
    }
    this.#warn(after);
    const over = this.line.lineS + Math.min(this.line.barS, tailS);
    if (this.#stopping || (this.#recorder.seconds < longestS && !(checked("take-stop") && after > over))) return;
    this.#stopping = true;
    this.ended();
  }

  // warn says what is wrong with the sound while it can still be fixed.
  #warn(after: number): void {
    if (this.#meter.tooLoud && this.#told !== tooLoud) this.#tell(tooLoud);
    if (after > faintS && this.#meter.faint && this.#told !== faint) this.#tell(faint);
    if (!this.#meter.faint && this.#told === faint) this.#tell("Recording");
  }

  // follow keeps the note in sight that comes next.
  #follow(after: number): void {
    const timeline = this.#click?.timeline;
    if (!timeline) return;
    const at = Math.max(0, after + leadS) * timeline.sample_rate;
    let next = -1;
    for (const note of timeline.notes) if (note.start <= at && note.start >= (timeline.notes[next]?.start ?? 0)) next = note.index;
    if (next < 0 || next === this.#following) return;
    this.#following = next;
    this.marks.keepInSight(next);
  }

  // The audio clock stops while the audio thread has no time to run, and
  // what comes in meanwhile is lost.
  #compareClocks(): void {
    const now = { wall: performance.now() / 1000, audio: this.context.currentTime };
    this.#clocks ??= now;
    this.#lostS = now.wall - this.#clocks.wall - (now.audio - this.#clocks.audio);
  }

  #tell(text: string): void {
    this.#told = text;
    say(text);
  }
}

// outputKnown waits until the browser knows its output's latency, or for as
// long as that is worth.
async function outputKnown(context: AudioContext): Promise<void> {
  const until = performance.now() + latencyMS;
  while (!context.outputLatency && performance.now() < until) await new Promise((resolve) => setTimeout(resolve, 20));
}
