// The sounds of one exercise: each part as a loop of its own, and the timeline
// that gives the sample at which everything in them begins.

export const partNames = ["line", "chords", "bass", "drums", "click", "voice"] as const;
export type PartName = (typeof partNames)[number];

export interface NoteMark {
  index: number;
  start: number; // samples from the loop's head
  end: number; // may lie past the loop's end
}

export interface Timeline {
  sample_rate: number;
  samples: number;
  notes: NoteMark[];
  beats: { sample: number; bar: number; beat: number }[];
  tempo: number;
  groups: number[];
  pickup: number; // quarter notes before the first bar line
}

export interface Sounds {
  key: string;
  query: string;
  timeline: Timeline;
  parts: Map<PartName, AudioBuffer>;
  count: AudioBuffer; // one bar of count-in
  starts: number[]; // of each note by index, in samples
}

const kept = 3; // exercises whose sounds stay unpacked, 60 MB each at half a minute

/** A SoundCase fetches sounds and keeps the last few. */
export class SoundCase {
  #cases = new Map<string, Promise<Sounds>>();

  constructor(private context: BaseAudioContext) {}

  /** get returns the sounds of a spec's query, played as the choices say ("&vamp=funk"). */
  get(query: string, choices: string): Promise<Sounds> {
    const key = query + choices;
    let sounds = this.#cases.get(key);
    if (!sounds) {
      sounds = this.#fetch(key, query);
      sounds.catch(() => this.#cases.delete(key));
    }
    this.#cases.delete(key);
    this.#cases.set(key, sounds);
    for (const oldest of this.#cases.keys()) {
      if (this.#cases.size <= kept) break;
      this.#cases.delete(oldest);
    }
    return sounds;
  }

  async #fetch(key: string, query: string): Promise<Sounds> {
    const parts = new Map<PartName, AudioBuffer>();
    const [timeline, count] = await Promise.all([
      timelineOf(key),
      soundOf(this.context, "count", key),
      ...partNames.map(async (name) => parts.set(name, await soundOf(this.context, name, key))),
    ]);
    const starts: number[] = [];
    for (const note of timeline.notes) starts[note.index] = note.start;
    return { key, query, timeline, parts, count, starts };
  }
}

async function ask(name: string, key: string): Promise<Response> {
  const answer = await fetch("/sound/" + name + "?" + key).catch(() => {
    throw new Error("heddle does not answer, so there is no sound. Is it still running?");
  });
  if (!answer.ok) throw new Error((await answer.text()).trim());
  return answer;
}

/** timelineOf fetches when everything sounds for a spec's query. */
export async function timelineOf(key: string): Promise<Timeline> {
  return (await ask("timeline", key)).json() as Promise<Timeline>;
}

/** soundOf fetches one part, or the count-in, ready to be played. */
export async function soundOf(context: BaseAudioContext, name: string, key: string): Promise<AudioBuffer> {
  return context.decodeAudioData(await (await ask(name, key)).arrayBuffer());
}

/** withTempo returns a spec's query at another tempo. */
export function withTempo(query: string, tempo: number): string {
  const fields = new URLSearchParams(query);
  fields.set("tempo", String(tempo));
  return fields.toString();
}

/** tuneOf is a query without its tempo: equal for the same notes. */
export function tuneOf(query: string): string {
  const fields = new URLSearchParams(query);
  fields.delete("tempo");
  return fields.toString();
}
