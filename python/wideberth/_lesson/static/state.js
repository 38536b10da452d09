// What is looked at, and the link that restores it.

export const START = {
  hole: 0, handicap: null, skill: null, wind: null, firmness: null, pin: null,
  ball: null, lie: null, played: 0, shot: null, kept: null,
};

const round = v => Math.round(v * 100) / 100;
const pair = p => p.map(round).join(",");
const shot = s => typeof s === "string" ? s : [s.club, ...s.aim.map(round), s.full === null ? "" : Number(s.full)].join(",");

function numbers(text, count) {
  const found = text.split(",").map(Number);
  return found.length === count && found.every(Number.isFinite) ? found : null;
}

function shotOf(text) {
  if (text === "best" || text === "flag") return text;
  const [club, x, y, full] = text.split(",");
  const aim = [Number(x), Number(y)];
  if (!club || !aim.every(Number.isFinite)) return null;
  return {club, aim, full: full === "1" ? true : full === "0" ? false : null};
}

/** The fragment of the address that tells a view. */
export function written(view) {
  const told = new URLSearchParams();
  if (view.hole) told.set("hole", view.hole + 1);
  if (view.handicap !== null) told.set("handicap", view.handicap);
  if (view.skill) told.set("skill", view.skill);
  if (view.wind) told.set("wind", pair(view.wind));
  if (view.firmness) told.set("ground", view.firmness);
  if (view.pin) told.set("pin", pair(view.pin));
  if (view.ball) told.set("ball", pair(view.ball));
  if (view.lie) told.set("lie", view.lie);
  if (view.played) told.set("played", view.played);
  if (view.shot) told.set("shot", shot(view.shot));
  if (view.kept) told.set("kept", shot(view.kept));
  return told.toString().replaceAll("%2C", ",");
}

/** The view that a fragment tells; what cannot be read is left out. */
export function read(fragment) {
  const told = new URLSearchParams(fragment.replace(/^#/, ""));
  const view = {...START};
  const one = (name, of) => told.has(name) ? of(told.get(name)) : null;
  const whole = text => /^\d{1,3}$/.test(text) ? Number(text) : 0;
  view.hole = Math.max(0, (one("hole", whole) ?? 1) - 1);
  const handicap = one("handicap", text => numbers(text, 1));
  view.handicap = handicap ? handicap[0] : null;
  view.skill = told.get("skill") || null;
  view.wind = one("wind", text => numbers(text, 2));
  view.firmness = told.get("ground") || null;
  view.pin = one("pin", text => numbers(text, 2));
  view.ball = one("ball", text => numbers(text, 2));
  view.lie = told.get("lie") || null;
  view.played = one("played", whole) ?? 0;
  view.shot = one("shot", shotOf);
  view.kept = one("kept", shotOf);
  return view;
}
