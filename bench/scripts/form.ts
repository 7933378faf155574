// The form of the sentence: what it sends, and how an answer is put into it
// without disturbing a person who is typing.
import { putRegion, type Region } from "./regions";

type Control = HTMLInputElement | HTMLSelectElement;

const isControl = (element: Element | null): element is Control => element instanceof HTMLInputElement || element instanceof HTMLSelectElement;

/** formOf is the sentence's form. */
export const formOf = () => document.getElementById("exercise") as HTMLFormElement;

/** formQuery is what the form would send. */
export function formQuery(): string {
  return new URLSearchParams([...new FormData(formOf())] as [string, string][]).toString();
}

/** isOfForm tells whether a region is part of the form. */
export const isOfForm = ({ id }: Region) => ["sentence", "faults", "rare", "neck-tools", "line-tools"].includes(id);

/** putForm takes up the form's regions. A control with the focus keeps what was
 * typed in it, unless all is to change. */
export function putForm(regions: Region[], over: boolean): void {
  const held = document.activeElement;
  const typed = isControl(held) && held.form === formOf() ? { id: held.id, value: held.value, at: caret(held) } : null;
  for (const region of regions) putRegion(region);
  for (const control of formOf().elements) if (isControl(control)) settle(control);
  const control = typed && document.getElementById(typed.id);
  if (!control || !isControl(control)) {
    if (typed) focusOn(typed.id);
    return;
  }
  if (!over && typed.value !== control.value && !(control instanceof HTMLInputElement && control.type === "checkbox")) {
    control.value = typed.value;
    if (typed.at && control instanceof HTMLInputElement) control.setSelectionRange(...typed.at);
  }
  if (document.activeElement !== control || closedAround(control)) focusOn(typed.id);
  const more = document.getElementById("more");
  if (more instanceof HTMLDetailsElement && more.querySelector(".fault")) more.open = true;
}

// settle gives a control the value that the answer holds.
function settle(control: Control): void {
  if (control instanceof HTMLSelectElement) {
    const chosen = [...control.options].findIndex((option) => option.defaultSelected);
    if (control.selectedIndex !== Math.max(0, chosen)) control.selectedIndex = Math.max(0, chosen);
  } else if (control.type === "checkbox") control.checked = control.defaultChecked;
  else if (control.value !== control.defaultValue) control.value = control.defaultValue;
}

function caret(control: Control): [number, number] | null {
  if (!(control instanceof HTMLInputElement) || control.selectionStart === null) return null;
  return [control.selectionStart, control.selectionEnd ?? control.selectionStart];
}

/** focusOn gives the focus to a control, or to the summary that opens it. */
export function focusOn(id: string): void {
  const control = document.getElementById(id);
  (closedAround(control)?.querySelector("summary") ?? control)?.focus();
}

const closedAround = (element: Element | null) => element?.closest("details:not([open])");

/** tell says why there is no answer, until the next one. */
export function tell(words: string): void {
  const fault = document.createElement("p");
  fault.className = "fault";
  fault.textContent = words.trim() || "heddle does not answer. The page shows the last exercise it sent. Is it still running?";
  const faults = document.getElementById("faults");
  faults?.replaceChildren(fault);
  faults?.setAttribute("data-mark", "");
}
