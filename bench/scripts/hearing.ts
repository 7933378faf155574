// Hearing one thing at once: a scale, a chord, a note.
import { say } from "./page";
import type { Transport } from "./transport";

let heard: AudioBufferSourceNode | null = null;

/** hear plays a sound once, in place of the one heard before. A stretch is in
 * seconds. */
export async function hear(transport: Transport, address: string, fromS = 0, lengthS = Infinity): Promise<void> {
  const context = transport.open();
  try {
    const answer = await fetch(address);
    if (!answer.ok) throw new Error((await answer.text()).trim());
    const sound = await context.decodeAudioData(await answer.arrayBuffer());
    await context.resume();
    stopHearing();
    heard = new AudioBufferSourceNode(context, { buffer: sound });
    const level = new GainNode(context, { gain: 0.8 });
    heard.connect(level).connect(context.destination);
    const length = Math.min(lengthS, sound.duration - fromS);
    const end = context.currentTime + length;
    level.gain.setValueAtTime(0.8, end - 0.05);
    level.gain.linearRampToValueAtTime(0, end);
    heard.start(0, fromS, length);
  } catch (error) {
    say(error instanceof Error ? error.message : String(error));
  }
}

/** stopHearing ends what hear plays. */
export function stopHearing(): void {
  heard?.stop();
  heard = null;
}
