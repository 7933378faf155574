// The click that a take is played to: a count-in, then what the player chose to
// hear, scheduled on the audio clock.
import { soundOf, timelineOf, type Timeline } from "./sounds";

export type Backing = "click" | "vamp" | "none";

const parts: Record<Backing, string[]> = { click: ["click"], vamp: ["click", "chords", "bass", "drums"], none: [] };

/** A Click holds the sounds of one exercise. */
export class Click {
  readonly barS: number;
  #sources: AudioBufferSourceNode[] = [];

  private constructor(
    private context: AudioContext,
    private count: AudioBuffer,
    private loops: AudioBuffer[],
    readonly timeline: Timeline,
  ) {
    this.barS = count.duration;
  }

  static async load(context: AudioContext, query: string, backing: Backing): Promise<Click> {
    const [timeline, count, ...loops] = await Promise.all([
      timelineOf(query),
      ...["count", ...parts[backing]].map((name) => soundOf(context, name, query)),
    ] as [Promise<Timeline>, Promise<AudioBuffer>, ...Promise<AudioBuffer>[]]);
    return new Click(context, count, loops, timeline);
  }

  /** start lays the count-in from a time on, and returns when its last bar
   * ends: the first bar line. */
  start(at: number, bars: number): number {
    const whole = this.timeline.samples / this.timeline.sample_rate;
    for (let bar = 0; bar < bars; bar++) this.#play(this.count, at + bar * this.barS, 0);
    const firstBar = at + bars * this.barS;
    for (const loop of this.loops) this.#play(loop, firstBar, whole);
    return firstBar;
  }

  stop(): void {
    for (const source of this.#sources) {
      source.stop();
      source.disconnect();
    }
    this.#sources = [];
  }

  #play(buffer: AudioBuffer, at: number, loopS: number): void {
    const source = new AudioBufferSourceNode(this.context, { buffer, loop: loopS > 0, loopEnd: loopS });
    source.connect(this.context.destination);
    source.start(at);
    this.#sources.push(source);
  }
}
