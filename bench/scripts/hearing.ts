// Hearing one thing at once: a scale, a chord, a note.
import { say, shown } from "./page";
import { soundOf, timelineOf } from "./sounds";
import { playedAs, type Transport } from "./transport";

const fadeS = 0.05; // at the end, so that it does not click
const leastS = 0.7; // of a note, which rings a little longer than it is written
const level = 0.8;

let heard: AudioBufferSourceNode | null = null;

/** hear plays a sound once, "line?home=…", in place of the one heard before. A
 * stretch of it is in seconds. */
export async function hear(transport: Transport, address: string, fromS = 0, lengthS = Infinity): Promise<void> {
  const context = transport.open();
  const [name, key] = address.split("?", 2);
  try {
    const sound = await soundOf(context, name ?? "", key ?? "");
    await context.resume();
    stopHearing();
    heard = new AudioBufferSourceNode(context, { buffer: sound });
    const gain = new GainNode(context, { gain: level });
    heard.connect(gain).connect(context.destination);
    const length = Math.min(lengthS, sound.duration - fromS);
    const end = context.currentTime + length;
    gain.gain.setValueAtTime(level, end - fadeS);
    gain.gain.linearRampToValueAtTime(0, end);
    heard.start(0, fromS, length);
  } catch (error) {
    say(error instanceof Error ? error.message : String(error));
  }
}

/** hearNote plays one note of the line. */
export async function hearNote(transport: Transport, note: number): Promise<void> {
  const key = shown().query + playedAs();
  const timeline = await timelineOf(key).catch(() => null); // hear says what is wrong
  const mark = timeline?.notes.find(({ index }) => index === note);
  if (!timeline || !mark) return;
  const rate = timeline.sample_rate;
  await hear(transport, "line?" + key, mark.start / rate, Math.max(leastS, (mark.end - mark.start) / rate));
}

/** hearSpots plays the note of a spot of the neck, or of the strip, that is
 * pressed. */
export function hearSpots(transport: Transport): void {
  document.addEventListener("click", ({ target }) => {
    const spot = target instanceof Element ? target.closest("#neck .spot, #strip .note") : null;
    if (!spot || transport.playing) return;
    const spots = document.getElementById("sheet")?.dataset.spots?.split(" ") ?? [];
    const note = spot.closest("#strip") ? Number(spot.getAttribute("data-note")) : spots.indexOf(spot.id.replace("neck-", ""));
    if (note >= 0) void hearNote(transport, note);
    else say("The line does not play that note.");
  });
}

/** stopHearing ends what hear plays. */
export function stopHearing(): void {
  heard?.stop();
  heard = null;
}
