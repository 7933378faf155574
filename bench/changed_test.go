package bench_test

import "testing"

// changesQuickly measures from the change of a word until a frame with the new
// neck and line has been painted, and until all that is in sight is new, and
// reports both beside the least that this browser takes here: to fetch as much
// and paint a word in another colour. The budget is 50 ms on a free machine
// with a graphics card; a test holds nothing to a time.
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
		const changed = id => new Promise(done => new MutationObserver((_, observer) => {
			observer.disconnect();
			done(frame());
		}).observe(document.getElementById(id), {attributeFilter: ["data-mark"]}));
		const middle = (times) => times.sort((a, b) => a - b)[times.length / 2];
		const result = {};
		const lines = [], all = [], least = [];
		const directions = ["up", "down", "up-down", "down-up"];
		for (let i = 0; i < 24; i++) {
			await rest();
			const select = document.getElementById("word-direction");
			select.focus();
			const seen = [changed("system-0"), changed("cards")];
			const before = performance.now();
			select.value = directions[i % 4];
			select.dispatchEvent(new Event("change", {bubbles: true}));
			lines.push(await seen[0] - before);
			all.push(await seen[1] - before);
			await rest();
			const begun = performance.now();
			const answer = await fetch(location.href, {headers: {"HX-Request": "true"}});
			await answer.text();
			document.querySelector(".sentence").style.color = i % 2 ? "" : "gray";
			least.push(await frame() - begun);
		}
		return {Line: middle(lines), BestLine: lines[0], All: middle(all), Least: middle(least), BestLeast: least[0]};
	})()`
	m := value[struct{ Line, BestLine, All, Least, BestLeast float64 }](p, measure)
	if m.Line == 0 {
		t.Fatal("no change was seen")
	}
	t.Logf("a changed word: neck and line painted after %.0f ms (best %.0f), all in sight after %.0f; the least here is %.0f (best %.0f); medians of 24",
		m.Line, m.BestLine, m.All, m.Least, m.BestLeast)
}
