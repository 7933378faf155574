// The ladder: the tempo from loop to loop, in steps up or down to a last one.
import { byId, checked } from "./page";

const fields = { "ladder-to": "to", "ladder-step": "by", "ladder-every": "every" };

export class Ladder {
  #good = { "ladder-to": 120, "ladder-step": 4, "ladder-every": 2 }; // the last valid values

  constructor(changed: () => void) {
    const read = () => {
      this.#read();
      changed();
    };
    for (const id of ["ladder", ...Object.keys(fields)]) byId(id, HTMLInputElement)?.addEventListener("change", read);
    this.#read();
  }

  /** rung is the tempo of a loop of an exercise that is asked for at a tempo. */
  rung(tempo: number, loop: number): number {
    if (!checked("ladder")) return tempo;
    const { "ladder-to": to, "ladder-step": step, "ladder-every": every } = this.#good;
    const climbed = step * Math.floor(loop / every);
    return to >= tempo ? Math.min(to, tempo + climbed) : Math.max(to, tempo - climbed);
  }

  // read reads the fields and says beside them what is wrong. A wrong value stays
  // as typed, and the ladder as it was.
  #read(): void {
    const faults: string[] = [];
    for (const [id, name] of Object.entries(fields)) {
      const field = byId(id, HTMLInputElement);
      if (!field) continue;
      const right = field.value !== "" && field.validity.valid;
      if (right) this.#good[id as keyof typeof fields] = field.valueAsNumber;
      else faults.push(`“${name}” takes a whole number from ${field.min} to ${field.max}`);
      field.ariaInvalid = right ? null : "true";
    }
    const place = document.getElementById("ladder-fault");
    if (!place) return;
    place.className = faults.length ? "fault" : "";
    place.textContent = faults.length ? faults.join("; ") + ". Until then the ladder stays as it was." : "";
  }
}
