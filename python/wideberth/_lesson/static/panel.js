// Words, lists and figures beside the map.

export function say(id, text) {
  const element = document.getElementById(id);
  if (element.textContent !== text) element.textContent = text;
}

/** Fills a list with items, or a choice with [value, word]. */
export function fill(list, items) {
  const same = JSON.stringify(items);
  if (list.dataset.items === same) return;
  list.dataset.items = same;
  list.replaceChildren(...items.map(item => {
    const one = document.createElement(list.tagName === "SELECT" ? "option" : "li");
    if (Array.isArray(item)) [one.value, one.textContent] = item; else one.textContent = item;
    return one;
  }));
}

const NAMES = {mine: "this shot", best: "the best", flag: "at the flag", kept: "kept"};

/** The figures of the shots, a row each. */
export function figures(table, found, kinds) {
  const rows = Object.entries(found.shots).map(([name, shot]) => {
    const row = document.createElement("tr"), kind = kinds[name];
    row.className = kind;
    const head = document.createElement("th");
    head.scope = "row";
    head.textContent = NAMES[kind];
    row.append(head);
    for (const [figure, word] of [["mean", "strokes"], ["par", "par or better"], ["blow_up", "three over or worse"], ["penalties", "penalty strokes"]]) {
      const cell = document.createElement("td");
      const [value, error] = shot[figure];
      cell.dataset.word = word;
      cell.append(value);
      if (error) {
        const small = document.createElement("small");
        small.textContent = ` ± ${error}`;
        cell.append(small);
      }
      row.append(cell);
    }
    return row;
  });
  table.tBodies[0].replaceChildren(...rows);
}

/** Tabs of groups: one group at a time on a phone, all of them on a wide screen. */
export function tabs(list, groups) {
  const buttons = groups.map(group => {
    const button = document.createElement("button");
    button.type = "button";
    button.setAttribute("role", "tab");
    button.setAttribute("aria-controls", group.id);
    button.textContent = group.querySelector("h2").textContent.split(" ")[0];
    return button;
  });
  const choose = (at, focus) => buttons.forEach((button, i) => {
    button.setAttribute("aria-selected", String(i === at));
    button.tabIndex = i === at ? 0 : -1;
    groups[i].classList.toggle("chosen", i === at);
    if (focus && i === at) button.focus();
  });
  buttons.forEach((button, i) => {
    button.addEventListener("click", () => choose(i));
    button.addEventListener("keydown", event => {
      const by = {ArrowRight: 1, ArrowLeft: -1}[event.key];
      if (!by) return;
      event.preventDefault();
      event.stopPropagation();
      choose((i + by + buttons.length) % buttons.length, true);
    });
  });
  list.replaceChildren(...buttons);
  choose(0);
}
