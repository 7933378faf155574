// A download and a link sound as the page is set to play.
import { byId, checked, shown } from "./page";
import { partNames } from "./sounds";

const names = ["vamp", "tone", "articulation", "count-in", "response", "silent", "loops", "ladder", "voice", "click", "mute", "level"];

/** carryChoices puts into the address of a download how the page is set to play. */
export function carryChoices(): void {
  for (const kind of ["click", "auxclick", "contextmenu"]) document.getElementById("downloads")?.addEventListener(kind, carry);
}

function carry(event: Event): void {
  const link = event.target instanceof Element ? event.target.closest("a") : null;
  if (!link) return;
  link.href = withSound(link.href, chosen());
}

/** linkTo is the address of an exercise with what was chosen for its sound. */
export function linkTo(address: string): string {
  const usual = (id: string) => document.getElementById(id)?.dataset.usual;
  return withSound(new URL(address, location.href).href, chosen().filter(([name, value]) => value !== usual(name)));
}

function withSound(href: string, choices: [string, string][]): string {
  const address = new URL(href);
  for (const name of names) address.searchParams.delete(name);
  for (const [name, value] of choices) address.searchParams.append(name, value);
  return address.href;
}

// chosen lists the choices under the names that the command's flags have too.
function chosen(): [string, string][] {
  const value = (id: string) => document.querySelector<HTMLInputElement | HTMLSelectElement>("#" + id)?.value ?? "";
  const list: [string, string][] = [
    ["vamp", value("vamp")],
    ["tone", value("tone")],
    ["articulation", value("articulation")],
    ["count-in", value("count-in")],
  ];
  if (checked("respond")) list.push(["response", "true"]);
  if (checked("silent")) list.push(["silent", "true"]);
  if (checked("ladder")) {
    list.push(["ladder", `${shown().tempo}-${value("ladder-to")} by ${value("ladder-step")} every ${value("ladder-every")}`]);
  } else if (checked("silent")) {
    list.push(["loops", "2"]); // the second is the silent one
  }
  for (const part of partNames) {
    const on = checked("on-" + part);
    if (part === "voice" && on) list.push(["voice", "true"]);
    if (part === "click" && on) list.push(["click", "all"]);
    if (part !== "voice" && part !== "click" && !on) list.push(["mute", part]);
    const level = byId("level-" + part, HTMLInputElement)?.valueAsNumber ?? 0;
    if (on && level !== 0) list.push(["level", `${part}=${level}`]);
  }
  return list;
}
