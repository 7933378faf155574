// Which microphone to record from. A browser gives their names only after one
// was allowed.
import { byId, hide } from "./page";
import { remember, remembered } from "./settings";

const storedAs = "heddle-take-input";

/** chosenInput is the microphone's id, empty for the browser's own choice. */
export function chosenInput(): string {
  return byId("take-input", HTMLSelectElement)?.value ?? "";
}

/** offerInputs offers the microphones there are, now and whenever one comes or
 * goes, and remembers in this browser which was chosen. */
export function offerInputs(): void {
  byId("take-input", HTMLSelectElement)?.addEventListener("change", () => remember(storedAs, chosenInput()));
  navigator.mediaDevices?.addEventListener("devicechange", () => void listInputs());
  void listInputs();
}

/** listInputs looks again which microphones there are. */
export async function listInputs(): Promise<void> {
  const select = byId("take-input", HTMLSelectElement);
  if (!select || !navigator.mediaDevices) return;
  const wished = select.value || remembered(storedAs);
  const inputs = (await navigator.mediaDevices.enumerateDevices()).filter((device) => device.kind === "audioinput" && device.label);
  select.replaceChildren(...inputs.map((device) => new Option(device.label, device.deviceId, false, device.deviceId === wished)));
  hide("take-input-label", inputs.length < 2);
}
