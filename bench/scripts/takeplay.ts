// Hearing a take beside the line. Both are scheduled on the audio clock from the
// first written note in the recording on. Each has its own level, and the
// sounding note is lit.
import { byId, reason, say } from "./page";
import { soundOf, timelineOf, withTempo, type Timeline } from "./sounds";

const soonS = 0.1;
const glideS = 0.02;

/** Marked is what the report says of where the take and the line meet. */
export interface Marked {
  offsetS: number; // of the first note in the recording
  tempo: number;
}

export class Playback {
  #take: AudioBuffer | null = null;
  #fetchTake: (() => Promise<ArrayBuffer>) | null = null; // where it is not here yet
  #marked: Marked | null = null;
  #line: { key: string; buffer: AudioBuffer; timeline: Timeline } | null = null;
  #sources: AudioBufferSourceNode[] = [];
  #levels = new Map<string, GainNode>();
  #frame = 0;
  #lit = -1;
  #turn = 0;

  constructor(
    private context: () => AudioContext,
    private query: () => string,
  ) {
    byId("take-play", HTMLButtonElement)?.addEventListener("click", () => void this.toggle());
    for (const id of ["take-level", "line-level"]) byId(id, HTMLInputElement)?.addEventListener("input", () => this.#setLevels());
  }

  get ready(): boolean {
    return this.#take !== null || this.#fetchTake !== null;
  }

  get playing(): boolean {
    return this.#sources.length > 0;
  }

  /** load takes up a recording; marked is null where it could not be marked,
   * and then the take is heard alone. */
  async load(file: ArrayBuffer, marked: Marked | null): Promise<void> {
    this.stop();
    this.#marked = marked;
    // Decoding takes its input away, and the take must stay.
    this.#take = await this.context().decodeAudioData(file.slice(0));
    this.#changed();
  }

  /** offer takes up a recording that is fetched when it is to be heard. */
  offer(fetchTake: () => Promise<ArrayBuffer>, marked: Marked | null): void {
    this.#fetchTake = fetchTake;
    this.#marked = marked;
    this.#changed();
  }

  async toggle(): Promise<void> {
    if (this.playing) this.stop();
    else await this.play();
  }

  async play(): Promise<void> {
    if (!this.ready) return;
    const turn = ++this.#turn;
    const context = this.context();
    try {
      await Promise.all([context.resume(), this.#fetchLine(context), this.#fetchRecording(context)]);
    } catch (error) {
      say(reason(error));
    }
    if (turn !== this.#turn || !this.#take) return;
    const at = context.currentTime + soonS;
    this.#start(this.#take, "take-level", at, 0, this.#take.duration);
    const line = this.#line;
    const marked = this.#marked;
    const first = line ? startOf(line.timeline, 0) : null;
    if (line && marked && first !== null) {
      const wholeS = line.timeline.samples / line.timeline.sample_rate;
      const from = first / line.timeline.sample_rate;
      const begin = at + marked.offsetS;
      const late = Math.max(0, context.currentTime + soonS / 2 - begin);
      this.#start(line.buffer, "line-level", begin + late, (from + late) % wholeS, wholeS - late, wholeS);
      this.#light(begin, line.timeline, first);
    }
    this.#sources[0]?.addEventListener("ended", () => {
      if (turn === this.#turn) this.stop();
    });
    this.#changed();
  }

  stop(): void {
    this.#turn++;
    for (const source of this.#sources) {
      source.stop();
      source.disconnect();
    }
    this.#sources = [];
    cancelAnimationFrame(this.#frame);
    this.#dark();
    this.#changed();
  }

  #start(buffer: AudioBuffer, level: string, at: number, from: number, lengthS: number, loopS = 0): void {
    const context = this.context();
    const gain = new GainNode(context, { gain: levelOf(level) });
    const source = new AudioBufferSourceNode(context, { buffer, loop: loopS > 0, loopEnd: loopS });
    source.connect(gain).connect(context.destination);
    source.start(at, from);
    source.stop(at + lengthS);
    this.#sources.push(source);
    this.#levels.set(level, gain);
  }

  #setLevels(): void {
    const context = this.context();
    for (const [id, gain] of this.#levels) gain.gain.setTargetAtTime(levelOf(id), context.currentTime, glideS);
  }

  async #fetchLine(context: AudioContext): Promise<void> {
    if (!this.#marked) return;
    const key = withTempo(this.query(), this.#marked.tempo);
    if (this.#line?.key === key) return;
    this.#line = null;
    const [timeline, buffer] = await Promise.all([timelineOf(key), soundOf(context, "line", key)]);
    this.#line = { key, timeline, buffer };
  }

  async #fetchRecording(context: AudioContext): Promise<void> {
    if (!this.#take && this.#fetchTake) this.#take = await context.decodeAudioData(await this.#fetchTake());
  }

  // light lights the written note that sounds now.
  #light(begin: number, timeline: Timeline, first: number): void {
    const context = this.context();
    const { samples, sample_rate: rate } = timeline;
    const notes = timeline.notes.map(({ index, start, end }) => {
      const from = (start - first + samples) % samples;
      return { index, from, to: from + end - start };
    });
    const step = () => {
      this.#frame = requestAnimationFrame(step);
      const at = (context.currentTime - (context.outputLatency || context.baseLatency || 0) - begin) * rate;
      const now = notes.find(({ from, to }) => from <= at && at < to)?.index ?? -1;
      if (now === this.#lit) return;
      this.#dark();
      this.#lit = now;
      for (const element of document.querySelectorAll(`#sheet [data-note="${now}"], #over [data-note="${now}"]`)) element.classList.add("lit");
    };
    step();
  }

  #dark(): void {
    for (const element of document.querySelectorAll(".lit")) element.classList.remove("lit");
    this.#lit = -1;
  }

  #changed(): void {
    const button = byId("take-play", HTMLButtonElement);
    if (button) button.textContent = this.playing ? "Stop" : this.#marked ? "Hear it with the line" : "Hear it";
  }
}

function startOf(timeline: Timeline, index: number): number | null {
  return timeline.notes.find((note) => note.index === index)?.start ?? null;
}

function levelOf(id: string): number {
  const control = byId(id, HTMLInputElement);
  const dB = Number(control?.value ?? 0);
  return control && control.value === control.min ? 0 : Math.pow(10, dB / 20);
}
