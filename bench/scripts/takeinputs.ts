// Which microphone to record from. A browser gives their names only after one
// was allowed.
import { byId } from "./page";

const storedAs = "heddle-take-input";

/** chosenInput is the microphone's id, empty for the browser's own choice. */
export function chosenInput(): string {
  return byId("take-input", HTMLSelectElement)?.value ?? "";
}

/** offerInputs offers the microphones there are, now and whenever one comes or
 * goes, and remembers in this browser which was chosen. */
export function offerInputs(): void {
  byId("take-input", HTMLSelectElement)?.addEventListener("change", () => {
    try {
      localStorage.setItem(storedAs, chosenInput());
    } catch {
      // a browser that stores nothing: the choice holds for this page
    }
  });
  navigator.mediaDevices?.addEventListener("devicechange", () => void listInputs());
  void listInputs();
}

/** listInputs looks again which microphones there are. */
export async function listInputs(): Promise<void> {
  const select = byId("take-input", HTMLSelectElement);
  const label = byId("take-input-label", HTMLElement);
  if (!select || !label || !navigator.mediaDevices) return;
  const wished = select.value || remembered();
  const inputs = (await navigator.mediaDevices.enumerateDevices()).filter((device) => device.kind === "audioinput" && device.label);
  select.replaceChildren(...inputs.map((device) => new Option(device.label, device.deviceId, false, device.deviceId === wished)));
  label.hidden = inputs.length < 2;
}

function remembered(): string {
  try {
    return localStorage.getItem(storedAs) ?? "";
  } catch {
    return "";
  }
}
