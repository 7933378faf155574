// The level of each part, and which of them are heard.
import { byId, checked } from "./page";
import { partNames, type PartName } from "./sounds";
import type { Transport } from "./transport";

const glideS = 0.02; // so that a moved fader does not crackle

export function mixParts(transport: Transport): void {
  const voice = byId("voice", HTMLInputElement);
  const spoken = byId("on-voice", HTMLInputElement);
  const vamp = byId("vamp", HTMLSelectElement);

  const apply = () => {
    const context = transport.context;
    if (!context) return;
    for (const name of partNames) {
      const level = Math.pow(10, Number(byId("level-" + name, HTMLInputElement)?.value ?? 0) / 20);
      set(context, name, checked("on-" + name) ? level : 0);
      // A count-in and a loop of only the click have switches of their own.
      if (name === "click") set(context, "count", level);
    }
  };
  const set = (context: AudioContext, name: PartName | "count", gain: number) => {
    transport.levels.get(name)?.gain.setTargetAtTime(gain, context.currentTime, glideS);
  };

  for (const name of partNames) {
    byId("on-" + name, HTMLInputElement)?.addEventListener("change", apply);
    byId("level-" + name, HTMLInputElement)?.addEventListener("input", apply);
  }
  // "Say names" in the bar and the voice's switch among the levels are the same.
  voice?.addEventListener("change", () => {
    if (spoken) spoken.checked = voice.checked;
    apply();
  });
  spoken?.addEventListener("change", () => {
    if (voice) voice.checked = spoken.checked;
  });
  // With only a click to play to, the click is on. With another vamp it goes back to
  // what it was.
  const click = byId("on-click", HTMLInputElement);
  let lent = false;
  click?.addEventListener("change", () => (lent = false));
  vamp?.addEventListener("change", () => {
    const alone = vamp.value === "click";
    if (click && alone !== lent && alone !== click.checked) {
      click.checked = alone;
      lent = alone;
    }
    apply();
  });
  transport.onChange(apply);
}
