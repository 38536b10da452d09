// A hole on the screen: play up the page, to scale. It projects and draws; what it draws is told by the lesson.

const SVG = "http://www.w3.org/2000/svg";
const TEXTURES = {
  bunker: [5, 5, "M1.5 1.5h0M4 4h0"], penalty_red: [6, 5, "M0 2.5h6"], penalty_yellow: [6, 5, "M0 2.5h4"],
  deep_rough: [5, 6, "M2.5 0v6"], out_of_bounds: [7, 7, "M-1 8L8-1M-1 1L1-1M6 8L8 6"], trees: [10, 10, "M5 2.4a2.6 2.6 0 1 0 .01 0"],
};
const HANDLES = ["aim", "ball", "pin"];
const GRAB = 30, STILL = 6, STEP = 50, APART = 26;
const NEAREST = 14, MARGIN = 4, FLAG = 30;

export function element(name, attributes = {}, parent = null, text = "") {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text) made.textContent = text;
  if (parent) parent.append(made);
  return made;
}

export class HoleMap {
  /** `moved(handle, place, done)` hears what a hand does. */
  constructor(box, label, moved) {
    this.box = box;
    this.moved = moved;
    this.id = box.id;
    this.svg = element("svg", {role: "group", "aria-label": label}, box);
    this.defs = element("defs", {}, this.svg);
    this.patterns = Object.entries(TEXTURES).map(([name, [width, height, d]]) => {
      const pattern = element("pattern", {id: `${this.id}-${name}`, width, height, patternUnits: "userSpaceOnUse"}, this.defs);
      element("path", {class: `e-${name} texture`, d}, pattern);
      return pattern;
    });
    this.ground = element("g", {class: "ground"}, this.svg);
    this.over = element("g", {class: "over"}, this.svg);
    this.marks = Object.fromEntries(HANDLES.slice().reverse().map(name => [name, this.handle(name)]));
    this.window = null;
    this.data = null;
    this.scene = {};
    this.pointers = new Map();
    this.grown = 1;
    this.listen();
    new ResizeObserver(() => this.resized()).observe(box);
  }

  handle(name) {
    const label = {aim: "Aim", ball: "Ball", pin: "Flag"}[name];
    const mark = element("g", {class: `handle h-${name}`, tabindex: 0, role: "slider", "aria-label": label, "aria-valuenow": 0}, this.svg);
    mark.addEventListener("keydown", event => {
      const step = event.shiftKey ? 10 : 1;
      const way = {ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, step], ArrowDown: [0, -step]}[event.key];
      if (!way || !this.scene[name]) return;
      event.preventDefault();
      event.stopPropagation();
      const [x, y] = this.scene[name];
      this.moved(name, [x + way[0], y + way[1]], true);
    });
    if (name === "aim") {
      element("circle", {class: "rim", r: 13}, mark);
      element("circle", {class: "ring", r: 13}, mark);
      element("path", {class: "hair", d: "M-19 0h12M7 0h12M0-19v12M0 7v12"}, mark);
      element("circle", {class: "point", r: 2.2}, mark);
    } else if (name === "ball") {
      element("circle", {class: "white", r: 8}, mark);
      element("circle", {class: "white inner", r: 8}, mark);
    } else {
      element("path", {class: "staff", d: "M0 0V-27"}, mark);
      element("path", {class: "cloth", d: "M.8-27l15 5.5-15 5.5z"}, mark);
      element("circle", {class: "cup", r: 2.6}, mark);
    }
    element("circle", {class: "grab", r: 22, cy: name === "pin" ? -12 : 0}, mark);
    return mark;
  }

  /** Another hole, or the same on another day. */
  hole(data, keep) {
    this.data = data;
    this.ground.replaceChildren();
    const area = (surface, d, crown) => {
      element("path", {class: `s s-${surface} e-${surface}${crown ? " crown" : ""}`, d, "fill-rule": "evenodd"}, this.ground);
      if (surface in TEXTURES) element("path", {class: "tex", fill: `url(#${this.id}-${surface})`, d, "fill-rule": "evenodd"}, this.ground);
    };
    for (const [surface, , d] of data.areas) area(surface, d, false);
    for (const d of data.crowns) area("trees", d, true);
    element("path", {class: "line", d: "M" + data.line.map(([x, y]) => `${x} ${-y}`).join("L")}, this.ground);
    if (!keep) this.whole();
    this.draw();
  }

  get size() { return [this.box.clientWidth || 1, this.box.clientHeight || 1]; }

  whole() { this.fit(this.data.x, this.data.y, 0); }

  /** Shows at least so much, in yards. */
  fit([left, right], [low, high], margin = MARGIN) {
    const [width, height] = this.size;
    // The flag stands higher than its cup, and the buttons lie at the foot of the map.
    const scale = Math.min((width - 8) / (right - left + 2 * margin), (height - FLAG - 8) / (high - low + 2 * margin), NEAREST);
    this.window = {x: (left + right) / 2, y: (low + high) / 2 + FLAG / 2 / scale, scale};
    this.fitted = [[left, right], [low, high], margin];
    this.draw();
  }

  resized() {
    // Handles grow with the words, so that a large screen shows them as well.
    this.grown = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
    if (!this.data) return;
    if (this.fitted) this.fit(...this.fitted); else this.draw();
  }

  zoom(factor, at) {
    const [width, height] = this.size;
    const [px, py] = at ?? [width / 2, height / 2];
    const before = this.place(px, py);
    const {scale} = this.window;
    this.window.scale = Math.min(NEAREST, Math.max(0.2, scale * factor));
    const after = this.place(px, py);
    this.window.x += before[0] - after[0];
    this.window.y += before[1] - after[1];
    this.fitted = null;
    this.draw();
  }

  /** A place of the page, in yards, on the screen. */
  at([x, y]) {
    const [width, height] = this.size, {x: cx, y: cy, scale} = this.window;
    return [(x - cx) * scale + width / 2, (cy - y) * scale + height / 2];
  }

  /** A place of the screen on the page. */
  place(px, py) {
    const [width, height] = this.size, {x, y, scale} = this.window;
    return [x + (px - width / 2) / scale, y - (py - height / 2) / scale];
  }

  show(scene) {
    Object.assign(this.scene, scene);
    this.draw();
  }

  draw() {
    if (!this.data || !this.window) return;
    const [width, height] = this.size, {scale} = this.window;
    this.svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    const [ox, oy] = this.at([0, 0]);
    this.ground.setAttribute("transform", `matrix(${scale} 0 0 ${scale} ${ox} ${oy})`);
    for (const pattern of this.patterns) pattern.setAttribute("patternTransform", `scale(${1 / scale})`);
    this.over.replaceChildren();
    this.arcs(width, height);
    const {shots, played, many} = this.scene;
    const room = [];
    if (many) this.crowd(many);
    else if (shots) this.shots(shots, room);
    if (played) this.path(played);
    this.handles();
  }

  /** Circles of yards around the flag, with the yards where they leave the map on the right or above the line. */
  arcs(width, height) {
    const [px, py] = this.at(this.data.pin), {scale} = this.window;
    const step = STEP * scale < APART ? 2 * STEP : STEP;
    for (let yards = step; yards < 700; yards += step) {
      const r = yards * scale;
      if (py + r < 0 || py - r > height) continue;
      element("circle", {class: "arc", cx: px, cy: py, r}, this.over);
      const away = width - 20 - px;
      const y = r > away ? py + Math.sqrt(r * r - away * away) : py + r;
      const x = r > away ? width - 20 : px;
      if (y > 14 && y < height - 8 && x > 0) element("text", {class: "yards", x, y: y + 4, "text-anchor": "middle"}, this.over, yards);
    }
  }

  shots(shots, room) {
    const {ball} = this.scene;
    for (const [kind, shot] of shots) {
      const g = element("g", {class: `shot ${kind}`}, this.over);
      const aim = kind === "mine" ? this.scene.aim : shot.aim;
      const start = this.at(ball), end = this.at(aim);
      if (kind === "mine") element("path", {class: "aim rim", d: `M${start}L${end}`}, g);
      element("path", {class: "aim", d: `M${start}L${end}`}, g);
      if (kind !== "best") this.balls(g, shot.balls, new Set(shot.lost));
      if (shot.ring) this.ring(g, shot.ring);
    }
    for (const [kind, shot] of shots) if (shot.ring && kind !== "mine") this.name(kind, shot, room);
    const {aim} = this.scene;
    if (!aim) return;
    const [x, y] = this.at(aim), far = Math.hypot(aim[0] - ball[0], aim[1] - ball[1]);
    element("text", {class: "tag mine", x: x - 26 * this.grown, y: y + 5, "text-anchor": "end"}, this.over, this.scene.lie === "green" ? `${Math.round(3 * far)} ft` : `${Math.round(far)} yd`);
  }

  name(kind, shot, room) {
    const [x, y, long, short, degrees] = shot.ring, turn = degrees * Math.PI / 180;
    const aside = Math.hypot(long * Math.cos(turn), short * Math.sin(turn));
    const [width] = this.size;
    let [px, py] = this.at([x + aside, y]);
    let anchor = "start";
    if (px > width - 70) { [px, py] = this.at([x - aside, y]); anchor = "end"; }
    while (room.some(other => Math.abs(other - py) < 17)) py += 17;
    room.push(py);
    element("text", {class: `tag ${kind}`, x: px + (anchor === "start" ? 8 : -8), y: py + 5, "text-anchor": anchor}, this.over, kind);
  }

  balls(g, places, lost) {
    let dots = "", crosses = "";
    places.forEach((place, i) => {
      const [x, y] = this.at(place).map(v => v.toFixed(1));
      if (lost.has(i)) crosses += `M${x - 3.5} ${y - 3.5}l7 7m-7 0l7-7`; else dots += `M${x} ${y}h0`;
    });
    if (dots) element("path", {class: "dots", d: dots}, g);
    if (crosses) element("path", {class: "crosses", d: crosses}, g);
  }

  ring(g, [x, y, long, short, degrees]) {
    const [px, py] = this.at([x, y]), {scale} = this.window;
    const turned = {transform: `translate(${px} ${py}) rotate(${-degrees})`, rx: Math.max(long * scale, 2), ry: Math.max(short * scale, 2)};
    element("ellipse", {class: "rim", ...turned}, g);
    element("ellipse", {class: "ring", ...turned}, g);
  }

  /** Where the strokes of many balls end. */
  crowd(strokes) {
    strokes.forEach(({rest, lost}, i) => this.balls(element("g", {class: `crowd k${Math.min(i + 1, 4)}`}, this.over), rest, new Set(lost)));
  }

  /** The strokes of one ball so far. */
  path(strokes) {
    const g = element("g", {class: "played"}, this.over);
    for (const stroke of strokes) {
      const [a, b] = [this.at(stroke.from), this.at(stroke.rest)];
      element("path", {class: "rim", d: `M${a}L${b}`}, g);
      element("path", {class: "way", d: `M${a}L${b}`}, g);
      element("circle", {class: stroke.penalty ? "rest lost" : "rest", cx: b[0], cy: b[1], r: 4.5}, g);
    }
  }

  handles() {
    for (const name of HANDLES) {
      const place = name === "pin" ? (this.scene.pin ?? this.data.pin) : this.scene[name], mark = this.marks[name];
      mark.style.display = place ? "" : "none";
      if (!place) continue;
      const [x, y] = this.at(place);
      mark.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)}) scale(${this.grown})`);
      const line = this.data.tee;
      mark.setAttribute("aria-valuetext", `${Math.round(place[1] - line[1])} yards up, ${Math.abs(Math.round(place[0] - line[0]))} ${place[0] < line[0] ? "left" : "right"}`);
    }
  }

  /** The handle under a hand, if there is one. */
  grabbed(px, py) {
    let found = null, least = GRAB;
    for (const name of HANDLES) {
      const place = name === "pin" ? (this.data.green && this.data.pin) : this.scene[name];
      if (!place) continue;
      const [x, y] = this.at(place);
      const far = Math.hypot(px - x, py - (name === "pin" ? y - 12 : y)) + (name === "aim" ? -4 : 0);
      if (far < least) [found, least] = [name, far];
    }
    return found;
  }

  listen() {
    const where = event => {
      const {left, top} = this.svg.getBoundingClientRect();
      return [event.clientX - left, event.clientY - top];
    };
    this.svg.addEventListener("pointerdown", event => {
      if (!this.data || event.button > 0) return;
      event.preventDefault();
      const [px, py] = where(event);
      this.svg.setPointerCapture(event.pointerId);
      const handle = this.pointers.size ? null : this.grabbed(px, py);
      this.pointers.set(event.pointerId, {px, py, first: [px, py], handle, moved: false});
      if (handle) this.svg.classList.add("held");
      if (handle) this.marks[handle].focus({preventScroll: true});
    });
    this.svg.addEventListener("pointermove", event => {
      const pointer = this.pointers.get(event.pointerId);
      if (!pointer) return;
      const [px, py] = where(event);
      const far = Math.hypot(px - pointer.first[0], py - pointer.first[1]);
      if (!pointer.moved && far < STILL) return;
      pointer.moved = true;
      if (pointer.handle) this.moved(pointer.handle, this.place(px, py), false);
      else if (this.pointers.size === 1) this.pan(px - pointer.px, py - pointer.py);
      else this.pinch(event.pointerId, pointer, px, py);
      [pointer.px, pointer.py] = [px, py];
    });
    const up = event => {
      const pointer = this.pointers.get(event.pointerId);
      this.pointers.delete(event.pointerId);
      this.svg.classList.remove("held");
      if (!pointer || event.type === "pointercancel") return;
      const [px, py] = where(event);
      if (pointer.handle && pointer.moved) this.moved(pointer.handle, this.place(px, py), true);
      else if (!pointer.moved && !pointer.handle && !this.pointers.size) this.moved("aim", this.place(px, py), true);
    };
    this.svg.addEventListener("pointerup", up);
    this.svg.addEventListener("pointercancel", up);
    this.svg.addEventListener("wheel", event => {
      if (!this.window) return;
      event.preventDefault();
      this.zoom(Math.exp(-event.deltaY / 400), where(event));
    }, {passive: false});
  }

  pan(dx, dy) {
    this.window.x -= dx / this.window.scale;
    this.window.y += dy / this.window.scale;
    this.fitted = null;
    this.draw();
  }

  pinch(id, pointer, px, py) {
    const other = [...this.pointers].find(([key]) => key !== id)?.[1];
    if (!other) return;
    const before = Math.hypot(pointer.px - other.px, pointer.py - other.py);
    const after = Math.hypot(px - other.px, py - other.py);
    if (before > 1) this.zoom(after / before, [(px + other.px) / 2, (py + other.py) / 2]);
  }
}
