// The address of the page is the exercise, and the way back to earlier ones.
import { tuneOf } from "./sounds";

const togetherMS = 2000; // steps of the tempo so close together are one

let stepped = -Infinity; // when the tempo alone changed last
addEventListener("popstate", () => (stepped = -Infinity));

/** keepAddress gives the page an address. It adds a step to go back from, except
 * that quick changes of the tempo are one step. */
export function keepAddress(address: string): void {
  const step = tuneOf(location.search) === tuneOf(address.slice(1));
  const at = performance.now();
  if (step && at - stepped < togetherMS) history.replaceState(null, "", address);
  else history.pushState(null, "", address);
  stepped = step ? at : -Infinity;
}
