// The sentence: a changed word fetches what it changes, and the address
// follows. Focus stays where it is, and nothing moves but what changed.
import { keepAddress } from "./address";
import { focusOn, formOf, formQuery, isOfForm, putForm, tell } from "./form";
import { inSight, makeRoom, putRegion, type Region, shownMarks, whenPainted } from "./regions";
import { redrawWhenRoomChanges, roomText } from "./room";

/** An Update is the server's answer to a changed word. Without an address a word
 * can't be read, and only the form's regions come. */
interface Update {
  address?: string;
  title?: string;
  view?: string;
  sheet?: Record<string, string>;
  regions: Region[];
}

/** A Manner is how an answer is taken up. */
interface Manner {
  entry: boolean; // a step to go back from
  over: boolean; // also over what is being typed
}

const onward: Manner = { entry: true, over: false };
const again: Manner = { entry: false, over: false }; // the same exercise, drawn again

/** Listener is called back after each answer. */
export interface Listener {
  shown(): void; // another exercise is shown
  refused(reason: string): void; // a word can't be read, or nothing answers (no reason)
  replaced(): void; // regions were replaced
}

/** followSentence takes up every changed word, link and step back. */
export function followSentence(listener: Listener): void {
  new Sentence(listener);
}

class Sentence {
  #address = location.pathname + location.search; // of what is shown
  #request: AbortController | null = null;
  #last: [string, Manner] = [this.#address, again];
  #late: Region[] = []; // out of sight, not yet put in place
  #fixing = ""; // the control of the wrong word that a link puts right

  constructor(private listener: Listener) {
    document.addEventListener("change", ({ target }) => target instanceof Element && target.closest("#bench") && this.#send(), true);
    formOf().addEventListener("submit", (event) => {
      event.preventDefault();
      if (this.#last[0] !== "/?" + formQuery()) this.#send(); // Enter in a changed word has sent it
    });
    addEventListener("popstate", () => void this.#show(location.pathname + location.search, { entry: false, over: true }));
    document.addEventListener("click", (event) => this.#follow(event));
    redrawWhenRoomChanges(() => void this.#show(...this.#last));
  }

  #send(): void {
    void this.#show("/?" + formQuery(), onward);
  }

  // show fetches an address and shows what it changes. A new request aborts the
  // one under way, since it asks for everything that one did: no late answer is
  // ever shown.
  async #show(wanted: string, how: Manner): Promise<void> {
    this.#request?.abort();
    const request = (this.#request = new AbortController());
    this.#last = [wanted, how];
    this.#late = []; // the answer brings them again where they differ
    let answer: Response;
    let body: string;
    try {
      answer = await fetch(wanted, { signal: request.signal, headers: { "Heddle-Shown": shownMarks(), "Heddle-Width": roomText() } });
      body = await answer.text();
    } catch {
      if (!request.signal.aborted) this.#refuse("");
      return;
    }
    if (request.signal.aborted) return;
    this.#request = null;
    if (!answer.ok) this.#refuse(body);
    else this.#receive(JSON.parse(body) as Update, how);
  }

  #refuse(reason: string): void {
    tell(reason);
    this.listener.refused(reason);
  }

  #receive(update: Update, how: Manner): void {
    const { address, regions } = update;
    const form = regions.filter(isOfForm);
    const rest = regions.filter((region) => !isOfForm(region));
    const near = rest.filter(inSight); // asked before anything changes: afterwards it would cost a layout
    if (address) {
      const sheet = document.getElementById("sheet");
      if (sheet) Object.assign(sheet.dataset, update.sheet);
      const bench = document.getElementById("bench");
      if (bench) bench.className = update.view ?? "";
      makeRoom(Number(update.sheet?.systems));
    }
    this.#late = rest.filter((region) => !near.includes(region));
    for (const region of near) putRegion(region);
    putForm(form, how.over);
    if (near.length) this.listener.replaced();
    if (!address) return this.listener.refused("a word can't be read");
    const isNew = how.entry && address !== this.#address;
    this.#address = address;
    this.#last = [address, again];
    const late = this.#late;
    whenPainted(() => {
      if (this.#address !== address) return;
      if (isNew) keepAddress(address);
      document.title = `${update.title} – heddle`;
      if (late !== this.#late) return;
      for (const region of late) putRegion(region);
      this.#late = [];
      if (late.length) this.listener.replaced();
    });
    this.listener.shown();
  }

  // follow opens a link to another exercise in place.
  #follow(event: MouseEvent): void {
    const link = event.target instanceof Element ? linkAt(event.target) : null;
    if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    this.#fixing = link.closest(".fault")?.id.replace("fault-", "") ?? "";
    void this.#show(link.pathname + link.search, onward).then(() => {
      if (this.#fixing) focusOn(this.#fixing);
      this.#fixing = "";
    });
  }
}

// A place on the map belongs to the link in its row.
function linkAt(element: Element): HTMLAnchorElement | null {
  const place = element.closest("#map .place");
  if (place) return document.querySelectorAll<HTMLAnchorElement>("#places a.here")[[...document.querySelectorAll("#map .place")].indexOf(place)] ?? null;
  return element.closest<HTMLAnchorElement>("a.here");
}
