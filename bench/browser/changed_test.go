package browser_test

import "testing"

// changesQuickly measures from the change of a word until a frame with all that
// is in sight has been painted, and reports it beside the least that this
// browser takes here: to fetch a whole answer and paint a word in another
// colour. The budget is 50 ms on a free machine; a test holds nothing to a time.
func changesQuickly(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	const measure = `(async () => {
		const rest = () => new Promise(done => setTimeout(done, 150));
		const frame = () => new Promise(done => requestAnimationFrame(() => {
			const painted = new MessageChannel(); // its message comes when the frame is done
			painted.port1.onmessage = () => done(performance.now());
			painted.port2.postMessage(0);
		}));
		// All that is in sight is put up in one task; the link to the other page
		// changes with every word.
		const changed = () => new Promise(done => new MutationObserver((_, observer) => {
			observer.disconnect();
			done(frame());
		}).observe(document.getElementById("pages"), {attributeFilter: ["data-mark"]}));
		const part = (times, share) => times.sort((a, b) => a - b)[Math.floor(times.length * share)];
		const words = [
			["direction", "up"], ["home", "A minor blues"], ["fret", "7"], ["groups", "4"], ["superimpose", "tritone"], ["direction", "up-down"], ["land", "root"],
			["direction", "down"], ["home", "G minor pentatonic"], ["fret", "10"], ["groups", "3"], ["superimpose", "semitone up"], ["land", "third"],
		];
		const all = [], least = [];
		for (let i = 0; i < 3 * words.length; i++) {
			await rest();
			const [word, value] = words[i % words.length];
			const control = document.getElementById("word-" + word);
			control.focus();
			const seen = changed();
			const before = performance.now();
			control.value = value;
			control.dispatchEvent(new Event("change", {bubbles: true}));
			all.push(await seen - before);
			await rest();
			const begun = performance.now();
			const answer = await fetch(location.href, {headers: {"Heddle-Shown": "none"}});
			await answer.text();
			document.querySelector(".sentence").style.color = i % 2 ? "" : "gray";
			least.push(await frame() - begun);
		}
		return {All: part(all, 0.5), Ninth: part(all, 0.9), Best: part(all, 0), Worst: all[all.length - 1], Least: part(least, 0.5), BestLeast: part(least, 0)};
	})()`
	m := value[struct{ All, Ninth, Best, Worst, Least, BestLeast float64 }](p, measure)
	if m.All == 0 {
		t.Fatal("no change was seen")
	}
	t.Logf("a changed word: all that is in sight painted after %.0f ms (nine in ten within %.0f, best %.0f, worst %.0f of 42); the least here is %.0f (best %.0f)",
		m.All, m.Ninth, m.Best, m.Worst, m.Least, m.BestLeast)
}
