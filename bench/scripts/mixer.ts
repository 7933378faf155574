// The level of each part, and which of them are heard.
import { byId } from "./page";
import { partNames } from "./sounds";
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
      const on = byId("on-" + name, HTMLInputElement)?.checked ?? true;
      const level = Number(byId("level-" + name, HTMLInputElement)?.value ?? 0);
      // With nothing but a click to play to, the click is the vamp.
      const heard = on || (name === "click" && vamp?.value === "click");
      transport.levels.get(name)?.gain.setTargetAtTime(heard ? Math.pow(10, level / 20) : 0, context.currentTime, glideS);
    }
  };

  for (const name of partNames) {
    byId("on-" + name, HTMLInputElement)?.addEventListener("change", apply);
    byId("level-" + name, HTMLInputElement)?.addEventListener("input", apply);
  }
  // "Say names" in reach and the voice's switch among the levels are one.
  voice?.addEventListener("change", () => {
    if (spoken) spoken.checked = voice.checked;
    apply();
  });
  spoken?.addEventListener("change", () => {
    if (voice) voice.checked = spoken.checked;
  });
  vamp?.addEventListener("change", apply);
  transport.onChange(apply);
}
