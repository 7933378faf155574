// Where the click is in the recording.
//
// Clicks and recording share one audio clock. A click laid down for time t
// leaves the loudspeaker at t + out, where out is the graph's own latency and
// the device's (Web Audio 1.1: baseLatency, outputLatency). A string plucked
// with it is captured at t + out, and is in the microphone's stream for
// the time t + out + in (Media Capture: the track's latency). So the first bar
// line of the click, as a player in time plays it, is out + in after the
// sample of the recording that shares its time. A delay that browsers
// don't know, such as a wireless headphone's, is set by hand as a further delay.
import { byId } from "./page";
import { remember, remembered } from "./settings";

const storedAs = "heddle-take-delay-ms";

/** knownS is the delay that the browser knows of, in seconds. */
export function knownS(context: AudioContext, inputS: number): number {
  return (context.baseLatency || 0) + (context.outputLatency || 0) + inputS;
}

/** furtherS is the delay that a person has set. */
export function furtherS(): number {
  const value = Number(byId("take-delay", HTMLInputElement)?.value ?? 0);
  return Number.isFinite(value) ? value / 1000 : 0;
}

export function setFurther(ms: number): void {
  const control = byId("take-delay", HTMLInputElement);
  if (control) control.value = String(Math.max(-200, Math.min(500, Math.round(ms))));
  keep();
}

export function showKnown(seconds: number): void {
  const place = byId("take-known", HTMLOutputElement);
  if (place) place.textContent = `${Math.round(1000 * seconds)} ms`;
}

/** keepDelay remembers the setting in this browser. */
export function keepDelay(): void {
  const control = byId("take-delay", HTMLInputElement);
  if (control) control.value = remembered(storedAs) ?? control.value;
  control?.addEventListener("change", keep);
}

const keep = () => remember(storedAs, byId("take-delay", HTMLInputElement)?.value ?? "0");
