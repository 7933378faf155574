// The address of the page is the exercise; one goes back by it.
import { tuneOf } from "./sounds";

const togetherMS = 2000; // steps of the tempo so close together are one

let stepped = -Infinity; // when the tempo alone changed last
addEventListener("popstate", () => (stepped = -Infinity));

/** keepAddress makes an address the page's: one more to go back from, but for a
 * step of the tempo soon after another. */
export function keepAddress(address: string): void {
  const step = tuneOf(location.search) === tuneOf(address.slice(1));
  const at = performance.now();
  if (step && at - stepped < togetherMS) history.replaceState(null, "", address);
  else history.pushState(null, "", address);
  stepped = step ? at : -Infinity;
}
