// The lesson: what is looked at, what is asked, and what is shown of the answers.

import {HoleMap} from "./map.js";
import {Link} from "./link.js";
import {START, read, written} from "./state.js";
import {figures, fill, say, tabs} from "./panel.js";
import {Playing} from "./playing.js";

const $ = id => document.getElementById(id);
const KIND = {"this shot": "mine", "the best shot": "best", "at the flag": "flag", "the kept shot": "kept"};

let view = read(location.hash);
let told = null;      // The last shots that were shown.
let map = null;       // The hole.
let about = null;
let held = false;     // A hand is on the map.
let waiting = false;  // A quick answer is on its way.
let next = false;     // Something was moved meanwhile.
let theShot = null;   // The part of the map that this shot takes.
let sight = matchMedia("(max-width: 47.99rem), (max-height: 32rem)").matches ? "shot" : "hole";

const whole = new HoleMap($("whole"), "The hole, play up the page", moved);
const near = new HoleMap($("near"), "Closer, where the shot ends", moved);
const maps = [whole, near];
const playing = new Playing($("log"), {see, reveal, set});
const link = new Link(heard, lost => {
  $("banner").hidden = !lost;
  $("banner").textContent = lost ? "The lesson does not answer; trying again …" : "";
});

/** Changes what is looked at, and asks. */
function set(changes, {quiet = false} = {}) {
  view = {...view, ...changes};
  if (!quiet) playing.forget();
  for (const one of maps) one.show({many: null});
  ask();
}

function ask() {
  remember();
  document.body.classList.remove("sharp");
  if (waiting && held) { next = true; return; }
  waiting = true;
  link.ask({kind: "ask", view});
}

function remember() {
  const fragment = written(view);
  history.replaceState(null, "", fragment ? `#${fragment}` : location.pathname);
}

function moved(handle, place, done) {
  held = !done;
  place = place.map(v => Math.round(v * 100) / 100);
  if (handle === "aim") {
    if (!told) return;
    for (const one of maps) one.show({aim: place, many: null});
    set({shot: shotNow({aim: place})});
  } else if (handle === "ball") {
    for (const one of maps) one.show({ball: place});
    set({ball: place, lie: null, played: Math.max(view.played, 1), shot: null, kept: null});
  } else if (map?.green) {
    movePin(place);
  }
}

/** Yards back and right of a place on the green: its coordinates in the green's own frame. */
function movePin([x, y]) {
  const [[ox, oy], [bx, by], [rx, ry]] = map.green;
  const back = (x - ox) * (bx - ox) + (y - oy) * (by - oy), right = (x - ox) * (rx - ox) + (y - oy) * (ry - oy);
  for (const one of maps) one.show({pin: [x, y]});
  if (!held) set({pin: [back, right].map(v => Math.round(v * 2) / 2)});
}

function heard(message) {
  const what = message[message.kind];
  if (message.kind === "map") showMap(what);
  else if (message.kind === "working") working(what);
  else if (message.kind === "shown") show(what);
  else if (message.kind === "figures") showFigures(what);
  else if (message.kind === "played") { waiting = false; playing.heard(what, view, told); }
  else if (message.kind === "planning") say("round", `Working it out: ${Math.round(100 * what[0] / Math.max(what[1], 1))} %`);
  else if (message.kind === "round") showRound(what);
  else if (message.kind === "refused" && message.id === link.beside) say("round", what);
  else if (message.kind === "refused") {
    waiting = false;
    say("lead", "That cannot be played.");
    say("than", what);
    document.body.classList.add("refused");
    again();
  }
}

function again() {
  if (!next) return;
  next = false;
  waiting = false;
  ask();
}

function showMap(data) {
  document.body.classList.add("stale");
  const same = map && map.name === data.name && map.length === data.length;
  map = data;
  for (const one of maps) { one.scene.pin = null; one.hole(data, same); }
  for (const one of maps) one.show({ball: view.ball ?? data.tee, ...(same ? {} : {shots: [], aim: null})});
  if (!same) near.fit([data.pin[0] - 40, data.pin[0] + 40], [data.pin[1] - 50, data.pin[1] + 30]);
  $("name").textContent = data.name;
  $("about").textContent = [`par ${data.par}, ${data.length} yd`, data.player, view.skill && `${SKILLS[view.skill]} a fifth better`].filter(Boolean).join(" · ");
  document.title = `${data.name}: lesson`;
  const [mph, from] = data.wind, out = Math.round(((from - data.up) % 360 + 360) % 360 / 45) % 8;
  $("wind").textContent = `${Math.round(mph)} mph`;
  $("wind-from").value = String(out);
  $("firmness").value = typeof data.firmness === "string" ? data.firmness : "medium";
  $("pin-row").hidden = !data.green;
  document.documentElement.dataset.wind = mph > 0 ? "yes" : "no";
  arrow(mph, from - data.up);
  $("hole-notes").textContent = [data.slopes, ...data.warnings].filter(Boolean).join(" ");
  fill($("cautions"), [...about.cautions, ...data.cautions]);
  $("attribution").textContent = data.attribution ?? about.attribution ?? "";
  $("hole").value = view.hole;
  const known = view.handicap === null;
  $("who").textContent = data.player;
  $("who-reset").disabled = known;
  $("skill").value = view.skill ?? "";
}

/** The wind over the map: an arrow the way it blows. */
function arrow(mph, from) {
  let mark = $("windmark");
  if (!mark) {
    mark = document.createElement("div");
    mark.id = "windmark";
    mark.innerHTML = "";
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    svg.setAttribute("viewBox", "-14 -14 28 28");
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("d", "M0 11V-10M-6-4L0-11l6 7");
    svg.append(path);
    mark.append(svg, document.createElement("span"));
    $("whole").append(mark);
  }
  mark.hidden = !(mph > 0);
  mark.querySelector("path").setAttribute("transform", `rotate(${from + 180})`);
  mark.querySelector("span").textContent = `${Math.round(mph)} mph`;
  mark.setAttribute("aria-label", `Wind ${Math.round(mph)} miles an hour`);
}

function working(share) {
  document.body.classList.add("working");
  say("lead", "Working out the best …");
  say("than", `${Math.round(100 * share)} %`);
}

function show(shown) {
  // Before the hole is solved there is nothing but where the balls end.
  const first = !shown.clubs;
  if (!first) told = shown;
  document.body.classList.remove("stale", "refused");
  document.body.classList.toggle("working", first);
  const shots = Object.entries(shown.shots).map(([name, shot]) => [KIND[name], shot]).filter(([kind, shot]) => kind !== "flag" && !shot.same);
  const order = ["best", "kept", "mine"];
  shots.sort((a, b) => order.indexOf(a[0]) - order.indexOf(b[0]));
  const mine = shown.shots["this shot"];
  for (const one of maps) one.show({ball: shown.ball, lie: shown.lie, aim: held && view.shot?.aim ? view.shot.aim : mine.aim, shots, pin: null});
  if (!held) frame(shots, shown.ball);
  if (first) return;
  fill($("club"), shown.clubs.map(club => [club, club]));
  $("club").value = mine.club;
  const choice = shown.lie;
  $("lie").value = choice;
  $("played").textContent = view.played;
  $("full").setAttribute("aria-pressed", String(mine.full));
  $("full").textContent = mine.full ? "Full swing" : mine.club === "putt" ? "Putt" : `Carry ${Math.round(mine.carry)}`;
  $("full").disabled = shown.lie === "green" && mine.club === "putt";
  $("swap").hidden = !view.kept;
  $("keep").textContent = view.kept ? "Let go" : "Keep";
  performance.measure("shown", {start: link.asked, end: performance.now()});
}

/** Brings the closer map to where the shots end, and a small map to the shot, while no hand is on it. */
function frame(shots, ball) {
  const rings = shots.filter(([, shot]) => shot.ring).map(([, {ring: [x, y, long]}]) => [x, y, Math.max(long * 1.7, 12)]);
  if (!rings.length) return;
  const low = i => Math.min(...rings.map(ring => ring[i] - ring[2])), high = i => Math.max(...rings.map(ring => ring[i] + ring[2]));
  near.fit([low(0), high(0)], [low(1), high(1)], 4);
  const farther = i => [Math.min(low(i), ball[i]), Math.max(high(i), ball[i])];
  theShot = [farther(0), farther(1), 6];
  if (sight === "shot") whole.fit(...theShot);
}

/** Shows the whole hole or this shot on the large map. */
function see(what) {
  sight = what;
  if (what === "shot" && theShot) whole.fit(...theShot); else if (map) whole.whole();
  $("see-hole").setAttribute("aria-pressed", String(what === "hole"));
  $("see-shot").setAttribute("aria-pressed", String(what === "shot"));
}

function showFigures(found) {
  say("lead", found.sentence.lead);
  say("than", found.unfinished ? "The hole cannot be finished as it is." : found.sentence.than);
  figures($("figures"), found, KIND);
  document.body.dataset.plays = found.plays;
  document.body.classList.toggle("sharp", found.sharp);
  performance.measure(found.sharp ? "sharp" : "quick", {start: link.asked, end: performance.now()});
  if (!found.sharp) {
    waiting = false;
    again();
  }
}

function showRound(plan) {
  const box = $("round");
  box.replaceChildren();
  const summary = document.createElement("p");
  summary.textContent = plan.summary;
  const table = document.createElement("table");
  const row = (cells, tag) => {
    const line = document.createElement("tr");
    for (const cell of cells) { const one = document.createElement(tag); one.textContent = cell; line.append(one); }
    return line;
  };
  const head = document.createElement("thead"), body = document.createElement("tbody");
  head.append(row(["hole", "par", "make", "made", "from the tee"], "th"));
  for (const hole of plan.holes) {
    const line = row([hole.hole, hole.par, hole.make, hole.made, hole.words], "td");
    line.classList.toggle("here", about.holes[view.hole]?.number === hole.hole);
    body.append(line);
  }
  table.append(head, body);
  box.append(summary, table);
}

/** Shows balls that were played on both maps. */
function reveal(scene) { for (const one of maps) one.show(scene); }

function turnHole(by) {
  const count = about.holes.length;
  const hole = ((view.hole + by) % count + count) % count;
  set({...START, hole, handicap: view.handicap, skill: view.skill, wind: view.wind, firmness: view.firmness});
}

/** The shot that is shown, but for what changes. */
function shotNow(changes) {
  const {club, aim, full} = told.shots["this shot"];
  return {club, aim, full, ...changes};
}

function turnClub(by) {
  const place = told.clubs.indexOf(told.shots["this shot"].club) + by;
  if (place >= 0 && place < told.clubs.length) set({shot: shotNow({club: told.clubs[place], full: null})});
}

async function save(what) {
  say("saved", "Making it …");
  try {
    const answer = await fetch(`save/${what}`, {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify(view)});
    if (!answer.ok) { say("saved", (await answer.text()).trim()); return; }
    const name = /filename="([^"]+)"/.exec(answer.headers.get("Content-Disposition") ?? "")?.[1] ?? what;
    const address = URL.createObjectURL(await answer.blob());
    const anchor = document.createElement("a");
    anchor.href = address;
    anchor.download = name;
    anchor.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
    say("saved", `Saved as ${name}.`);
  } catch {
    say("saved", "The lesson does not answer.");
  }
}

async function copyLink() {
  try {
    await navigator.clipboard.writeText(location.href);
    say("saved", "The link is copied: it restores this view while the lesson runs here.");
  } catch {
    say("saved", location.href);
  }
}

const SKILLS = {
  straighter: "direction", surer_distance: "distance", fewer_mishits: "mishits", short_game: "short game", putting: "putting",
};
const WINDS = ["ahead", "ahead right", "right", "behind right", "behind", "behind left", "left", "ahead left"];
function setWind(mph, out) { set({wind: [Math.max(0, Math.min(60, mph)), ((map.up + 45 * out) % 360 + 360) % 360], shot: view.shot}); }

function listen() {
  const on = (id, act) => $(id).addEventListener("click", () => told && act());
  on("see-hole", () => see("hole"));
  on("see-shot", () => see("shot"));
  see(sight);
  on("club-back", () => turnClub(-1));
  on("club-on", () => turnClub(1));
  $("club").addEventListener("change", event => set({shot: shotNow({club: event.target.value, full: null})}));
  on("best", () => set({shot: "best"}));
  on("flag", () => set({shot: "flag"}));
  on("keep", () => set({kept: view.kept ? null : shotNow({})}));
  on("swap", () => set({shot: view.kept, kept: shotNow({})}));
  on("full", () => set({shot: shotNow({full: !told.shots["this shot"].full})}));
  on("tee", () => set({ball: null, lie: null, played: 0, shot: null, kept: null}));
  on("play-one", () => playing.one(link, view));
  on("play-out", () => playing.out(link, view, $("then").value));
  on("play-many", () => playing.many(link, view, $("then").value));
  $("lie").addEventListener("change", event => set({lie: event.target.value, ball: view.ball ?? told.ball, shot: null, kept: null}));
  on("played-less", () => set({played: Math.max(0, view.played - 1)}));
  on("played-more", () => set({played: Math.min(30, view.played + 1)}));
  for (const button of document.querySelectorAll("[data-pin]")) button.addEventListener("click", () => {
    const [right, back] = button.dataset.pin.split(",").map(Number);
    const [[ox, oy], [bx, by], [rx, ry]] = map.green, [x, y] = map.pin;
    movePin([x + back * (bx - ox) + right * (rx - ox), y + back * (by - oy) + right * (ry - oy)]);
  });
  $("pin-reset").addEventListener("click", () => set({pin: null}));
  const from = () => Number($("wind-from").value);
  $("wind-from").addEventListener("change", () => setWind(map.wind[0] || 10, from()));
  $("wind-less").addEventListener("click", () => setWind(map.wind[0] - 5, from()));
  $("wind-more").addEventListener("click", () => setWind(map.wind[0] + 5, from()));
  $("firmness").addEventListener("change", event => set({firmness: event.target.value}));
  $("skill").addEventListener("change", event => set({skill: event.target.value || null}));
  $("who-reset").addEventListener("click", () => set({handicap: null}));
  const handicap = by => set({handicap: Math.max(0, Math.min(54, Math.round((view.handicap ?? about.handicap ?? 18) + by)))});
  $("handicap-less").addEventListener("click", () => handicap(-1));
  $("handicap-more").addEventListener("click", () => handicap(1));
  $("hole").addEventListener("change", event => turnHole(Number(event.target.value) - view.hole));
  $("hole-back").addEventListener("click", () => turnHole(-1));
  $("hole-on").addEventListener("click", () => turnHole(1));
  $("plan").addEventListener("click", () => link.askBeside({kind: "round", view, target: Number($("target").value)}) && say("round", "Working it out …"));
  for (const button of document.querySelectorAll("[data-save]")) button.addEventListener("click", () => save(button.dataset.save));
  $("link").addEventListener("click", copyLink);
  $("more").addEventListener("click", () => $("help").showModal());
  $("theme").addEventListener("click", turnTheme);
  document.addEventListener("keydown", key);
  window.addEventListener("hashchange", () => { view = read(location.hash); playing.forget(); ask(); });
}

function turnTheme() {
  const root = document.documentElement;
  const dark = getComputedStyle(root).colorScheme === "dark";
  root.dataset.theme = dark ? "light" : "dark";
}

function key(event) {
  if (event.ctrlKey || event.metaKey || event.altKey || $("help").open) return;
  if (event.target.closest("input, select, textarea") || !told) return;
  const step = event.shiftKey ? 10 : 1;
  const way = {ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, step], ArrowDown: [0, -step]}[event.key];
  const acts = {
    ",": () => turnClub(-1), ".": () => turnClub(1), b: () => $("best").click(), f: () => $("flag").click(), k: () => $("keep").click(),
    s: () => view.kept && $("swap").click(), p: () => $("play-one").click(), o: () => $("play-out").click(), c: () => $("play-many").click(),
    t: () => $("tee").click(), "+": () => whole.zoom(1.25), "-": () => whole.zoom(0.8), "0": () => see("hole"), "1": () => see("shot"), "?": () => $("help").showModal(),
  };
  if (way && !event.target.closest("[role=tablist]")) {
    const [x, y] = whole.scene.aim;
    moved("aim", [x + way[0], y + way[1]], true);
  } else if (acts[event.key]) acts[event.key]();
  else return;
  event.preventDefault();
}

async function begin() {
  about = await (await fetch("about.json")).json();
  fill($("hole"), about.holes.map((hole, i) => [i, `${hole.number}`]));
  $("holes").hidden = about.holes.length < 2;
  $("g-round").hidden = !about.course;
  if (about.course) $("target").value = about.par + about.holes.length;
  fill($("wind-from"), WINDS.map((word, i) => [i, word]));
  fill($("skill"), [["", "nothing"], ...about.skills.map(name => [name, SKILLS[name]])]);
  fill($("firmness"), about.firmness.map(name => [name, name.replace("-", " ")]));
  fill($("lie"), ["tee", "fairway", "first_cut", "rough", "deep_rough", "fringe", "green", "bunker", "trees"].map(name => [name, name.replace("_", " ")]));
  fill($("not-modelled"), about.not_modelled);
  tabs(document.querySelector(".tabs"), [...document.querySelectorAll(".group")].filter(group => !group.hidden));
  listen();
  ask();
}

begin();
