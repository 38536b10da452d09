// Balls played: a stroke at a time, a whole hole, a hundred.

const signed = v => (v > 0 ? "+" : v < 0 ? "−" : "") + Math.abs(v).toFixed(2);
const PAUSE = 900;
const ENDS = {penalty_red: "red penalty area", penalty_yellow: "yellow penalty area"};

export class Playing {
  constructor(box, {see, reveal, set}) {
    Object.assign(this, {box, see, reveal, set});
    this.ball = 0;
    this.strokes = [];
    this.kind = null;
  }

  /** What was played is no longer looked at. */
  forget() {
    if (this.strokes.length || this.box.childElementCount) this.box.replaceChildren();
    this.strokes = [];
    clearTimeout(this.timer);
    this.reveal({played: null, many: null});
  }

  ask(link, view, kind, then, balls) {
    clearTimeout(this.timer);
    this.kind = kind;
    this.ball += 1;
    link.ask({kind: "play", view, balls, ball: this.ball, then});
  }

  /** One stroke, as it is aimed; then the ball lies there. */
  one(link, view) {
    if (this.strokes.at(-1)?.next === null) this.forget();
    this.ask(link, view, "one", "best", 1);
  }

  /** The hole to its end. */
  out(link, view, then) { this.forget(); this.see("hole"); this.ask(link, view, "out", then, 1); }

  many(link, view, then) { this.forget(); this.see("hole"); this.ask(link, view, "many", then, 100); }

  heard(found, view) {
    if (this.kind === "many") this.tell(found, view);
    else if (this.kind === "one") this.step(found.strokes[0], view);
    else { this.waiting = found.strokes; this.score = found.scores[0]; this.further(); }
  }

  /** The next stroke of a whole hole. */
  further() {
    const stroke = this.waiting.shift();
    if (!stroke) return;
    this.add(stroke);
    this.reveal({played: this.strokes, ball: stroke.next?.ball ?? stroke.rest, shots: [], aim: null});
    if (this.waiting.length) {
      const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
      this.timer = setTimeout(() => this.further(), still ? 0 : PAUSE);
    } else this.end(this.score);
  }

  step(stroke, view) {
    this.add(stroke);
    if (stroke.next === null) {
      this.reveal({played: this.strokes, ball: stroke.rest, shots: [], aim: null});
      this.end(view.played + stroke.used);
      return;
    }
    this.reveal({played: this.strokes});
    const {ball, lie} = stroke.next;
    this.set({ball, lie, played: view.played + stroke.used, shot: null, kept: null}, {quiet: true});
  }

  add(stroke) {
    this.strokes.push(stroke);
    let table = this.box.querySelector("table");
    if (!table) {
      table = document.createElement("table");
      table.className = "strokes";
      const head = table.createTHead().insertRow();
      for (const word of ["stroke", "choice", "execution"]) {
        const cell = document.createElement("th");
        cell.textContent = word;
        head.append(cell);
      }
      table.createTBody();
      this.box.replaceChildren(table);
    }
    const row = table.tBodies[0].insertRow();
    const far = stroke.lie === "green" ? `${Math.round(3 * stroke.to_pin)} ft` : `${Math.round(stroke.to_pin)} yd`;
    const penalty = stroke.penalty ? `, +${stroke.penalty}` : "";
    const end = stroke.holed ? "holed" : stroke.lost ? "lost" : ENDS[stroke.rest_on] ?? stroke.rest_on.replaceAll("_", " ");
    for (const text of [`${stroke.club} from ${far}: ${end}${penalty}`, signed(stroke.choice), signed(stroke.execution)]) row.insertCell().textContent = text;
    row.cells[1].classList.toggle("bad", stroke.choice < -0.05);
    row.cells[2].classList.toggle("bad", stroke.execution < -0.5);
    row.scrollIntoView?.({block: "nearest"});
  }

  end(score) {
    const line = document.createElement("p");
    const sum = name => this.strokes.reduce((all, stroke) => all + stroke[name], 0);
    line.textContent = `In ${score}. Gained on what was to be expected: ${signed(sum("choice"))} by choice, ${signed(sum("execution"))} by execution. One ball says little.`;
    this.box.append(line);
    line.scrollIntoView({block: "nearest"});
  }

  /** A hundred balls: where their strokes end, and the scores. */
  tell(found) {
    this.reveal({many: found.strokes, played: null});
    const counts = new Map();
    for (const score of found.scores) counts.set(score, (counts.get(score) ?? 0) + 1);
    const most = Math.max(...counts.values());
    const list = document.createElement("ul");
    list.className = "bars";
    for (const score of [...counts.keys()].sort((a, b) => a - b)) {
      const item = document.createElement("li"), bar = document.createElement("i"), count = counts.get(score);
      bar.style.height = `${Math.max(2, 56 * count / most)}px`;
      const told = document.createElement("b"), word = document.createElement("span");
      told.textContent = count;
      word.textContent = score;
      item.append(told, bar, word);
      list.append(item);
    }
    const line = document.createElement("p");
    line.textContent = `A hundred balls from here, by score:`;
    const key = document.createElement("p");
    key.className = "key";
    found.strokes.slice(0, 4).forEach((_, i) => {
      const word = document.createElement("span");
      word.className = `k${i + 1}`;
      word.textContent = ["first stroke", "second", "third", "later"][i];
      key.append(word);
    });
    this.box.replaceChildren(line, list, key);
  }
}
