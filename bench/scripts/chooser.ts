// The chooser: everything there is for a word of the sentence, below the word.
// A word that can be typed narrows the list as it is typed.
import { formQuery } from "./form";
import { hear, stopHearing } from "./hearing";
import { say } from "./page";
import type { Transport } from "./transport";

type Word = HTMLInputElement | HTMLSelectElement;

const gapPX = 6; // between the word and the list

/** openChoosers opens a chooser at each word that is pressed. */
export function openChoosers(transport: Transport): void {
  new Chooser(transport);
}

class Chooser {
  #panel = document.createElement("div");
  #word: Word | null = null;
  #was = ""; // what the word said when the list opened
  #active: HTMLElement | null = null;
  #wish = 0; // counts requests, so that only the last one counts
  #root = ""; // a root that was typed and asked for

  constructor(private transport: Transport) {
    this.#panel.id = "chooser";
    this.#panel.hidden = true;
    this.#panel.role = "dialog";
    this.#panel.ariaLabel = "Everything to choose from";
    document.body.append(this.#panel);
    document.addEventListener("pointerdown", (event) => this.#press(event));
    document.addEventListener("click", (event) => {
      const word = wordAt(event.target);
      if (!(word instanceof HTMLInputElement) || this.#word === word) return;
      word.select();
      void this.#open(word);
    });
    document.addEventListener("keydown", (event) => this.#key(event), true);
    document.addEventListener("input", ({ target }) => {
      const word = wordAt(target);
      if (!(word instanceof HTMLInputElement)) return;
      if (this.#word === word) this.#narrow();
      else void this.#open(word);
    });
    document.addEventListener("change", ({ target }) => {
      if (wordAt(target)) this.#close();
      else if (target instanceof HTMLSelectElement && this.#panel.contains(target)) void this.#fill({ type: target.value });
    });
    this.#panel.addEventListener("pointerover", ({ target }) => this.#point(rowAt(target)));
    this.#panel.addEventListener("click", ({ target }) => {
      const sound = target instanceof Element ? target.closest<HTMLElement>("[data-hear]") : null;
      const root = target instanceof Element ? target.closest<HTMLElement>("[data-root]") : null;
      if (sound) void hear(this.transport, sound.dataset.hear ?? "");
      else if (root) void this.#fill({ on: root.dataset.root ?? "" });
      else this.#choose(rowAt(target));
    });
    document.addEventListener("focusin", ({ target }) => {
      if (this.#word && target instanceof Node && target !== this.#word && !this.#panel.contains(target)) this.#close();
    });
  }

  #press(event: PointerEvent): void {
    const word = wordAt(event.target);
    if (this.#word && word !== this.#word && event.target instanceof Node && !this.#panel.contains(event.target)) this.#close();
    if (!(word instanceof HTMLSelectElement) || event.button !== 0) return;
    event.preventDefault();
    if (this.#word === word) this.#close();
    else void this.#open(word);
  }

  async #open(word: Word): Promise<void> {
    if (this.#word === word) return;
    this.#close();
    this.#word = word;
    this.#was = word instanceof HTMLInputElement ? word.defaultValue : word.value;
    this.#root = "";
    word.removeAttribute("list"); // the browser's own list would cover this one
    await this.#fill({});
  }

  // fill asks for the list, of another root or type where one is given.
  async #fill(of: Record<string, string>): Promise<void> {
    const word = this.#word;
    if (!word) return;
    const wish = ++this.#wish;
    const index = [...document.getElementsByName(word.name)].indexOf(word);
    const address = `/choose/${word.name}?${new URLSearchParams({ word: String(index), ...of })}&${formQuery()}`;
    const answer = await fetch(address).catch(() => null);
    const text = answer ? await answer.text() : "heddle does not answer. Is it still running?";
    if (wish !== this.#wish || !this.#word) return;
    if (!answer?.ok) {
      say(text.trim());
      this.#close();
      return;
    }
    this.#panel.replaceChildren(document.createRange().createContextualFragment(text));
    this.#panel.hidden = false;
    this.#place(word);
    const chosen = this.#panel.querySelector<HTMLElement>('[aria-selected="true"]');
    if (word instanceof HTMLInputElement) {
      for (const [name, value] of [["role", "combobox"], ["aria-expanded", "true"], ["aria-controls", "offers"], ["aria-autocomplete", "list"]] as const) word.setAttribute(name, value);
      if (!this.#panel.contains(document.activeElement)) word.focus();
    } else this.#list()?.focus();
    this.#point(word instanceof HTMLSelectElement ? chosen : null);
    chosen?.scrollIntoView({ block: "nearest" });
    this.#narrow();
  }

  #list(): HTMLElement | null {
    return this.#panel.querySelector<HTMLElement>("#offers");
  }

  // place puts the list below its word, inside the page.
  #place(word: Word): void {
    const box = word.getBoundingClientRect();
    const room = document.documentElement.clientWidth;
    const width = this.#panel.offsetWidth;
    this.#panel.style.left = `${Math.max(8, Math.min(box.left, room - width - 8)) + scrollX}px`;
    this.#panel.style.top = `${box.bottom + scrollY + gapPX}px`;
  }

  #rows(): HTMLElement[] {
    return [...this.#panel.querySelectorAll<HTMLElement>(".offer:not([hidden])")];
  }

  // narrow keeps the rows that have every word typed. Where none has, another
  // root may have been typed.
  #narrow(): void {
    const word = this.#word;
    if (!(word instanceof HTMLInputElement)) return this.#count();
    const typed = word.value === this.#was ? [] : plain(word.value).split(/\s+/).filter(Boolean);
    for (const row of this.#panel.querySelectorAll<HTMLElement>(".offer")) {
      const text = plain(`${row.dataset.value} ${row.textContent}`);
      row.hidden = !typed.every((part) => text.includes(part));
    }
    for (const group of this.#panel.querySelectorAll<HTMLElement>(".group")) group.hidden = !group.querySelector(".offer:not([hidden])");
    const none = document.getElementById("no-offer");
    if (none) none.hidden = this.#rows().length > 0;
    const root = word.value.trim().split(/\s/)[0] ?? "";
    if (!this.#rows().length && root !== this.#root && this.#panel.querySelector("[data-root]")) {
      this.#root = root;
      void this.#fill({ on: root });
    }
    this.#point(null);
    this.#count();
  }

  #count(): void {
    const n = this.#rows().length;
    say(n === 1 ? "1 choice" : `${n} choices`);
  }

  #point(row: HTMLElement | null): void {
    if (row === this.#active) return;
    this.#active?.classList.remove("active");
    this.#active = row;
    row?.classList.add("active");
    const holder = this.#word instanceof HTMLInputElement ? this.#word : this.#list();
    if (row) holder?.setAttribute("aria-activedescendant", row.id);
    else holder?.removeAttribute("aria-activedescendant");
  }

  #key(event: KeyboardEvent): void {
    const word = this.#word;
    if (!word) {
      const at = wordAt(event.target);
      const opens = event.key === "ArrowDown" && (event.altKey || at instanceof HTMLInputElement && at.type === "text");
      if (at && (opens || at instanceof HTMLSelectElement && (event.key === "Enter" || event.key === " "))) {
        event.preventDefault();
        event.stopPropagation();
        void this.#open(at);
      }
      return;
    }
    if (event.target !== word && event.target !== this.#list()) {
      if (event.key === "Escape") this.#leave(event);
      return;
    }
    const rows = this.#rows();
    const at = this.#active ? rows.indexOf(this.#active) : -1;
    const step: Record<string, number> = { ArrowDown: at + 1, ArrowUp: at < 0 ? rows.length - 1 : at - 1, PageDown: at + 8, PageUp: at - 8 };
    const next = step[event.key];
    if (event.key === "Escape") this.#leave(event);
    else if (event.key === "Tab") this.#close();
    else if (event.key === "Enter" && this.#active) {
      event.preventDefault();
      event.stopPropagation();
      this.#choose(this.#active);
    } else if (next !== undefined && !event.altKey) {
      event.preventDefault();
      event.stopPropagation();
      const row = rows[Math.max(0, Math.min(rows.length - 1, next))] ?? null;
      this.#point(row);
      row?.scrollIntoView({ block: "nearest" });
    } else if (word instanceof HTMLSelectElement) event.stopPropagation();
  }

  #leave(event: KeyboardEvent): void {
    event.preventDefault();
    event.stopPropagation();
    const word = this.#word;
    if (word instanceof HTMLInputElement) word.value = this.#was;
    this.#close();
    word?.focus();
  }

  #choose(row: HTMLElement | null): void {
    const word = this.#word;
    if (!row || !word) return;
    word.value = row.dataset.value ?? "";
    this.#close();
    word.focus();
    word.dispatchEvent(new Event("change", { bubbles: true }));
  }

  #close(): void {
    this.#wish++;
    if (!this.#word) return;
    for (const name of ["role", "aria-expanded", "aria-controls", "aria-autocomplete", "aria-activedescendant"]) this.#word.removeAttribute(name);
    this.#word = null;
    this.#active = null;
    this.#panel.hidden = true;
    this.#panel.replaceChildren();
    stopHearing();
  }
}

// wordAt is a word that has a list: not a number.
function wordAt(target: EventTarget | null): Word | null {
  const word = target instanceof Element ? target.closest<Word>(".word :is(input, select)") : null;
  return word instanceof HTMLInputElement && word.type !== "text" ? null : word;
}

const rowAt = (target: EventTarget | null) => (target instanceof Element ? target.closest<HTMLElement>(".offer") : null);

// plain is text as it is typed: without music signs and capitals.
const plain = (text: string) => text.toLowerCase().replaceAll("♭", "b").replaceAll("♯", "#");
