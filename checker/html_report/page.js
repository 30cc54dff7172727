"use strict";
// Steps through the audited walkthroughs of this page. All drawing is a list of pieces, made where the page was made: the script
// puts symbols in places, and shows of the board what is there before and after a step.

const SVG = "http://www.w3.org/2000/svg";

function element(name, text, ...classes) {
  const made = document.createElement(name);
  if (text) made.textContent = text;
  made.classList.add(...classes);
  return made;
}

class Board {
  constructor(figure, data) {
    this.figure = figure;
    this.data = data;
    [this.below, this.digits, this.above] = figure.querySelectorAll("svg > g:not(.axis)");
    this.pieces = Array.from(this.digits.children, (use) => ({
      use, cell: Number(use.dataset.cell), from: Number(use.dataset.from), to: Number(use.dataset.to),
      digit: use.getAttribute("href").match(/\d+$/)[0], shown: !use.classList.contains("off"),
    }));
  }

  show(at) {
    for (const piece of this.pieces) {
      const shown = piece.from <= at && at < piece.to;
      if (shown !== piece.shown) {
        piece.use.classList.toggle("off", !shown);
        piece.shown = shown;
      }
    }
  }

  mark(coded = []) {
    const layers = [[], []];
    for (let at = 0; at < coded.length; at += 2) {
      const [name, over] = this.data.symbols[coded[at]];
      const use = document.createElementNS(SVG, "use");
      use.setAttribute("href", `#${this.data.prefix}${name}`);
      use.setAttribute("x", this.data.places[2 * coded[at + 1]]);
      use.setAttribute("y", this.data.places[2 * coded[at + 1] + 1]);
      layers[over].push(use);
    }
    this.below.replaceChildren(...layers[0]);
    this.above.replaceChildren(...layers[1]);
  }

  describe() {
    const size = this.data.size;
    const cells = Array.from({ length: size * size }, () => []);
    for (const piece of this.pieces) if (piece.shown) cells[piece.cell].push(piece.digit);
    const rows = [];
    for (let row = 0; row < size; row++) {
      const told = cells.slice(row * size, (row + 1) * size).map((digits) => digits.join(" or ") || "nothing");
      rows.push(`Row ${row + 1}: ${told.join(", ")}.`);
    }
    this.figure.querySelector("details p").textContent = rows.join(" ");
  }
}

class Walk {
  constructor(section) {
    this.section = section;
    this.prefix = section.dataset.prefix;
    this.bench = section.querySelector(".bench");
    this.data = JSON.parse(section.querySelector("script.data").textContent);
    this.steps = this.data.steps;
    this.rows = section.querySelectorAll(".log li");
    this.findings = section.querySelectorAll(".findings .finding");
    const before = this.find(".before");
    const after = this.find(".after");
    after.querySelector("svg").replaceChildren(...before.querySelector("svg").cloneNode(true).childNodes);
    this.before = new Board(before, this.data);
    this.after = new Board(after, this.data);
    this.counters = Array.from(section.querySelectorAll(".counter"), (figure) => new Board(figure, this.data));
    this.range = this.find(".course input");
    this.range.addEventListener("input", () => this.go(Number(this.range.value)));
    for (const button of this.bench.querySelectorAll("[data-go]")) {
      button.addEventListener("click", () => this.move(button.dataset.go));
    }
    this.rows.forEach((row, at) => {
      // The address of a step now means the boards, not the entry of the list.
      row.removeAttribute("id");
      row.firstElementChild.addEventListener("click", (event) => {
        event.preventDefault();
        this.go(at + 1);
        this.bench.scrollIntoView();
      });
    });
    this.bench.hidden = false;
    this.at = 0;
    this.show(1);
  }

  find(selector) {
    return this.bench.querySelector(selector);
  }

  move(where) {
    const last = this.steps.length;
    const next = { first: () => 1, last: () => last, back: () => Math.max(1, this.at - 1), next: () => Math.min(last, this.at + 1),
      trouble: () => this.trouble() }[where]();
    this.go(next);
  }

  // The next step that something is wrong with, from the beginning again after the last.
  trouble() {
    const wrong = (step) => step.verdict !== "warranted";
    const ahead = this.steps.findIndex((step, index) => index >= this.at && wrong(step));
    return 1 + (ahead >= 0 ? ahead : this.steps.findIndex(wrong));
  }

  go(number) {
    if (number === this.at) return;
    this.show(number);
    try {
      history.replaceState(null, "", `#${this.prefix}step-${number}`);
    } catch {
      // Browsers limit how often the address may change; with a key held down, it may lag behind.
    }
  }

  show(number) {
    this.rows[this.at - 1]?.firstElementChild.removeAttribute("aria-current");
    this.at = number;
    const step = this.steps[number - 1];
    this.before.show(number - 1);
    this.before.mark(step.before);
    this.before.describe();
    this.after.show(number);
    this.after.mark(step.after);
    this.after.describe();
    this.refute(step.counters ?? []);
    this.tell(step, number);
    this.reason(step);
    this.range.value = number;
    this.range.setAttribute("aria-valuetext", `${number} of ${this.steps.length}, ${step.verdict}`);
    this.follow();
  }

  // The entry of the list, brought to sight without moving the page.
  follow() {
    const row = this.rows[this.at - 1];
    const list = row.parentElement;
    row.firstElementChild.setAttribute("aria-current", "step");
    const above = row.offsetTop - list.offsetTop;
    if (above < list.scrollTop || above + row.offsetHeight > list.scrollTop + list.clientHeight) {
      list.scrollTop = above - list.clientHeight / 3;
    }
  }

  refute(counters) {
    for (const board of this.counters) board.figure.hidden = true;
    for (const [which, claims, marks] of counters) {
      const board = this.counters[which];
      board.figure.hidden = false;
      board.figure.querySelector("figcaption").textContent = `A solution of the puzzle, against ${claims}`;
      board.mark(marks);
    }
  }

  tell(step, number) {
    const count = this.find(".count");
    count.textContent = `Step ${number} of ${this.steps.length}`;
    count.href = `#${this.prefix}step-${number}`;
    const verdict = this.find(".verdict");
    verdict.textContent = step.verdict;
    verdict.className = `verdict ${step.verdict}`;
    const aside = [step.number && `told as ${step.number}`, step.time, step.hangs && `hangs on step ${step.hangs}`];
    this.find(".aside").textContent = aside.filter(Boolean).join(", ");
    this.find(".words").replaceChildren(...step.words.map(([text, guilty]) => element(guilty ? "mark" : "span", text)));
    this.find(".saying").replaceChildren(...(step.say ?? []).map((text) => element("p", text, "say")));
  }

  reason(step) {
    this.list(".effects", (step.effects ?? []).map(([claim, verdict]) => [this.badge(verdict), claim, verdict]));
    this.list(".facts", (step.facts ?? []).map(([letter, facts]) => [element("b", letter, "letter"), facts]));
    this.list(".lacking", (step.lacking ?? []).map(([letter, facts]) => [element("b", letter, "letter"), facts]));
    this.find(".spelt").hidden = !step.spelt;
    this.find(".spelt code").textContent = step.spelt ?? "";
    this.find(".here").replaceChildren(...(step.findings ?? []).map((at) => {
      const copy = this.findings[at].cloneNode(true);
      copy.removeAttribute("id");
      copy.querySelector(".source")?.remove();
      return copy;
    }));
  }

  list(where, entries) {
    const part = this.find(where);
    part.hidden = !entries.length;
    part.querySelector("ul").replaceChildren(...entries.map(([sign, text, verdict]) => {
      const entry = document.createElement("li");
      entry.append(sign, ` ${text}`);
      if (verdict) entry.append(" ", element("i", verdict, verdict));
      return entry;
    }));
  }

  badge(verdict) {
    const svg = document.createElementNS(SVG, "svg");
    svg.setAttribute("viewBox", "-10 -10 20 20");
    svg.setAttribute("class", "sample");
    svg.setAttribute("aria-hidden", "true");
    const use = document.createElementNS(SVG, "use");
    use.setAttribute("href", `#${this.data.prefix}badge-${verdict}`);
    svg.append(use);
    return svg;
  }
}

const sections = Array.from(document.querySelectorAll(".walk"));
const walks = new Map();

// A walkthrough is made ready when it is first looked at.
function ready(section) {
  if (section.querySelector("script.data") && !walks.has(section)) walks.set(section, new Walk(section));
  return walks.get(section);
}

function open(section) {
  for (const other of sections) other.hidden = other !== section;
  for (const link of document.querySelectorAll(".index a")) {
    if (link.hash === `#${section.id}`) link.setAttribute("aria-current", "true");
    else link.removeAttribute("aria-current");
  }
  return ready(section);
}

// What the address asks for: a step, a finding, a walkthrough; else the first walkthrough.
function follow() {
  const [, prefix, number] = location.hash.match(/^#(.*)step-(\d+)$/) ?? [];
  const named = document.getElementById(location.hash.slice(1));
  const section = sections.find((one) => one.dataset.prefix === prefix) ?? named?.closest(".walk")
    ?? sections.find((one) => !one.hidden) ?? sections[0];
  const walk = open(section);
  if (walk?.steps[number - 1]) {
    walk.show(Number(number));
    walk.bench.scrollIntoView();
  } else {
    named?.scrollIntoView();
  }
}

document.addEventListener("keydown", (event) => {
  const moves = { ArrowLeft: "back", ArrowRight: "next", Home: "first", End: "last" };
  const elsewhere = event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || event.target.closest("input");
  const walk = walks.get(sections.find((one) => !one.hidden));
  if (!elsewhere && walk && event.key in moves) {
    event.preventDefault();
    walk.move(moves[event.key]);
  }
});
window.addEventListener("hashchange", () => sections.length && follow());
window.addEventListener("beforeprint", () => {
  for (const key of document.querySelectorAll(".key")) key.open = true;
});
if (sections.length) follow();
