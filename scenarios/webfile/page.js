"use strict";
(() => {
  const $ = id => document.getElementById(id);
  // make returns an element with attributes and children; texts are never markup.
  const make = (tag, attributes = {}, ...children) => {
    const e = document.createElement(tag);
    for (const [k, v] of Object.entries(attributes)) {
      if (k === "onclick" || k === "oninput" || k === "onchange" || k === "ontoggle") e[k] = v;
      else if (v !== undefined && v !== null && v !== false) e.setAttribute(k, v === true ? "" : v);
    }
    e.append(...children.filter(c => c !== "" && c !== undefined && c !== null));
    return e;
  };
  const say = text => { $("status").textContent = text; };
  const fail = error => {
    document.body.dataset.failed = error.message || String(error);
    say("This browser cannot run the engine: " + document.body.dataset.failed);
  };
  addEventListener("error", e => fail(e.error || e));
  addEventListener("unhandledrejection", e => fail(e.reason));

  // An engine is one worker. ask returns the reply to a request.
  const code = () => URL.createObjectURL(new Blob([$("go").textContent, "\n", $("worker").textContent], { type: "text/javascript" }));
  let url, module, packed = () => {
    const text = atob($("engine").textContent.trim());
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
    $("engine").remove();
    return bytes;
  };
  class Engine {
    constructor() {
      this.waiting = new Map();
      this.next = 1;
      this.sent = {};
      url = url || code();
      this.worker = new Worker(url);
      this.ready = new Promise((resolve, reject) => {
        this.worker.onmessage = e => {
          const m = e.data;
          if (m.failed) return reject(new Error(m.failed));
          if (m.ready) { module = m.module; return resolve(); }
          const w = this.waiting.get(m.id);
          if (!w) return;
          if (m.reply === undefined) return w.step && w.step(m.done, m.all);
          this.waiting.delete(m.id);
          this.ms = m.ms;
          this.memory = m.memory;
          w.resolve(m.reply);
        };
        this.worker.onerror = e => reject(new Error(e.message));
      });
      if (module) this.worker.postMessage({ module });
      else { const bytes = packed(); this.worker.postMessage({ bytes }, [bytes.buffer]); }
    }
    async ask(request, step) {
      await this.ready;
      const files = {};
      for (const [name, bytes] of Object.entries(state.files)) if (this.sent[name] !== bytes) files[name] = this.sent[name] = bytes;
      return new Promise(resolve => {
        const id = this.next++;
        this.waiting.set(id, { resolve, step });
        this.worker.postMessage({ id, request, files });
      });
    }
    get busy() { return this.waiting.size > 0; }
    stop() { this.worker.terminate(); }
  }

  const state = { files: {}, scenario: "", set: {}, controls: [], cards: null, turn: 0, zone: "" };
  let fast, slow;

  function errors(list, head) {
    const box = $("errors");
    box.replaceChildren();
    box.hidden = !list || list.length === 0;
    if (box.hidden) return;
    box.append(make("h2", {}, head || "This cannot be used as it is"));
    box.append(make("ul", {}, ...list.map(f => make("li", {},
      make("code", {}, [f.file, f.line, f.column].filter(Boolean).join(":")), f.file ? ": " : "", f.message,
      f.fix ? make("pre", {}, "fix: " + f.fix) : ""))));
    box.focus();
  }

  // open reads the scenario and shows its cards.
  async function open(name) {
    say("Reading " + name + " and its weather…");
    const begin = performance.now();
    state.scenario = name;
    state.set = {};
    state.turn++;
    fast = fast || new Engine();
    const reply = await fast.ask({ do: "open", scenario: name });
    say("");
    if (reply.wants) {
      errors(reply.wants.map(w => ({ message: "the scenario reads " + w, fix: "add this file here, together with the scenario" })), "A file is missing");
      return;
    }
    errors(reply.errors);
    if (!reply.cards) return;
    state.controls = reply.controls || [];
    state.fixed = reply.fixed || "";
    $("results").hidden = false;
    if ($("formpart")) $("formpart").open = false;
    showControls();
    showCards(reply);
    showAssumed(reply.assumed || []);
    document.body.dataset.firstCard = Math.round(performance.now());
    document.body.dataset.opening = Math.round(performance.now() - begin);
    document.body.dataset.memory = fast.memory;
    later();
  }

  // move answers a slider: the last move wins.
  let moving = false, moved = false;
  async function move() {
    state.turn++;
    moved = true;
    hush();
    if (moving) return;
    moving = true;
    while (moved) {
      moved = false;
      const slowTimer = setTimeout(() => say("Replaying…"), 250);
      const reply = await fast.ask({ do: "move", set: state.set });
      clearTimeout(slowTimer);
      say("");
      if (reply.errors) errors(reply.errors); else { errors(); showCards(reply); }
      document.body.dataset.move = fast.ms.toFixed(1);
      document.body.dataset.memory = fast.memory;
      document.body.dataset.moves = 1 + Number(document.body.dataset.moves || 0);
    }
    moving = false;
    later();
  }

  // later makes the checks and the draws, once nothing has moved for a while.
  let timer;
  function later() {
    hush();
    timer = setTimeout(doubts, 500);
  }
  // hush ends checks and draws under way and takes down what they said of other numbers.
  function hush() {
    clearTimeout(timer);
    delete document.body.dataset.draws;
    $("doubt").textContent = "Ranges follow in a moment.";
    $("nextpart").setAttribute("aria-busy", "true");
    if (slow && slow.busy) { slow.stop(); slow = null; }
    for (const box of cards.values()) {
      box.ranges = null;
      if (box.sheetPart.open) box.sheet.replaceChildren(make("p", {}, "Working out the settings…"));
    }
  }
  async function doubts() {
    const turn = state.turn, current = () => turn === state.turn;
    if (!slow) {
      slow = new Engine();
      await slow.ask({ do: "open", scenario: state.scenario });
    } else if (slow.scenario !== state.scenario + state.opened) {
      await slow.ask({ do: "open", scenario: state.scenario });
    }
    slow.scenario = state.scenario + state.opened;
    if (!current()) return;
    const checked = await slow.ask({ do: "check", set: state.set });
    if (!current()) return;
    if (checked.errors) return errors(checked.errors);
    showCards(checked);
    showNext(checked.next);
    const draws = 64;
    const drawn = await slow.ask({ do: "draw", draws }, (done, all) => {
      if (current()) $("doubt").textContent = "Drawing " + draws + " times from the ranges of the inputs: " + Math.round(100 * done / all) + "%";
    });
    if (!current()) return;
    if (drawn.errors) { $("doubt").textContent = "No ranges: " + drawn.errors[0].message; return; }
    showCards(drawn);
    showNext(drawn.next);
    showRanges(drawn.ranges);
    document.body.dataset.draws = draws;
    for (const box of cards.values()) if (box.sheetPart.open) showSheet(box);
  }

  // Cards. Elements are kept from one reply to the next, so that focus and open parts stay.
  const cards = new Map();
  function showCards(reply) {
    const c = reply.cards;
    state.cards = c;
    $("site").textContent = c.site || "Your yard";
    $("over").textContent = c.label + ". " + c.over + ". " + c.years;
    $("answer").textContent = c.answer;
    $("try").textContent = c.try || "";
    $("alarms").replaceChildren(...c.alarms.map(a => make("li", {}, a)));
    $("alarm").hidden = c.alarms.length === 0;
    const most = Math.max(...c.cards.map(card => Number((figure(card, "water") || {}).value || 0)));
    const keep = new Set();
    c.cards.forEach((card, i) => {
      let box = cards.get(card.strategy);
      if (!box) cards.set(card.strategy, box = newCard(card.strategy));
      keep.add(card.strategy);
      box.at = i;
      fill(box, card, most, c);
      if ($("cards").children[i] !== box.element) $("cards").insertBefore(box.element, $("cards").children[i] || null);
    });
    for (const [name, box] of cards) if (!keep.has(name)) { box.element.remove(); cards.delete(name); }
  }
  const figure = (card, kind) => card.figures.find(f => f.kind === kind);

  function newCard(name) {
    const part = (tag, attributes) => make(tag, attributes);
    const box = { title: part("h3"), badge: part("p", { class: "badge" }), about: part("p", { class: "about" }), bar: part("div", { class: "bar", "aria-hidden": "true" }),
      facts: part("dl"), days: part("table", { class: "days" }), sheet: part("div", { class: "wide", tabindex: "0" }), sources: part("ul") };
    box.bar.append(part("div"));
    box.sheetPart = make("details", { class: "sheet", ontoggle: () => box.sheetPart.open && showSheet(box) }, make("summary", {}, "Settings to enter"), box.sheet);
    box.element = make("article", { class: "card", "data-strategy": name }, box.title, box.badge, box.about, box.bar, box.facts, box.days, box.sheetPart,
      make("details", {}, make("summary", {}, "Sources and cautions"), box.sources));
    box.sheet.setAttribute("aria-label", "Settings for " + name);
    return box;
  }

  const number = f => ({ "data-figure": f.key, "data-value": f.value === null ? "" : String(f.value) });
  function fill(box, card, most, c) {
    box.title.textContent = card.strategy;
    box.badge.textContent = card.baseline ? "What runs now" : card.named ? "The answer above is about this one" : card.option ? "Option" : "Not an option";
    box.about.textContent = [card.about, card.needs ? "Needs: " + card.needs + "." : ""].filter(Boolean).join(". ").replace("..", ".");
    const water = figure(card, "water");
    box.bar.firstChild.style.width = (most > 0 ? 100 * water.value / most : 0) + "%";
    const facts = [], row = (term, text, attributes, range) => facts.push(make("div", {}, make("dt", {}, term),
      make("dd", {}, make("span", attributes || {}, text), range ? make("span", { class: "range" }, range) : "")));
    for (const f of card.figures) if (f.kind !== "days" || !f.fine && !/browning|stress/.test(f.key))
      row(f.title, f.text, number(f), box.ranges && box.ranges[f.key]);
    if (card.worst) row("Worst zone, thirsty days", card.worst);
    row("Timer", card.fits);
    row("Local rules", card.rules);
    if (card.meets && !card.baseline) row("Meets the rule", card.meets[0].toUpperCase() + card.meets.slice(1) + (card.why ? ". " + card.why : ""));
    if (card.measure) box.measure = card.measure;
    if (box.measure) row("Measure next", box.measure);
    box.facts.replaceChildren(...facts);
    box.days.replaceChildren(...days(card));
    box.days.hidden = box.days.children.length < 2;
    box.sources.replaceChildren(...c.sources.concat(c.cautions, state.fixed ? [state.fixed] : []).map(s => make("li", {}, s)));
  }

  // days is the table of fine, thirsty and browning days.
  function days(card) {
    const of = (key, end) => card.figures.find(f => f.key.startsWith(key) && f.key.endsWith(end));
    const columns = ["_median", "_dry"].filter(end => card.figures.some(f => f.key.startsWith("stress_days_zone") && f.key.includes(end)));
    const find = (key, end) => card.figures.find(f => f.key.startsWith(key) && f.key.includes(end));
    if (columns.length === 0) {
      const f = of("stress_days_zone", "");
      if (!f) return [];
      const b = of("browning_days", "");
      return [make("caption", {}, f.title), make("tbody", {}, dayRow("fine", [f.fine]), dayRow("thirsty", [f]), b ? dayRow("browning, driest quarter", [b]) : "")];
    }
    return [make("caption", {}, "Days of the plants"),
      make("thead", {}, make("tr", {}, make("td", {}), ...columns.map(end => make("th", { scope: "col" }, end === "_dry" ? "dry year" : "typical year")))),
      make("tbody", {}, dayRow("fine", columns.map(end => find("stress_days_zone", end).fine)), dayRow("thirsty", columns.map(end => find("stress_days_zone", end))),
        dayRow("browning, driest quarter", columns.map(end => find("browning_days_quarter", end))))];
  }
  const dayRow = (name, list) => make("tr", {}, make("th", { scope: "row" }, name),
    ...list.map(f => typeof f === "string" ? make("td", {}, f) : f ? make("td", number(f), f.text) : make("td", {}, "-")));

  function showNext(next) {
    state.next = next;
    $("nextpart").removeAttribute("aria-busy");
    if (next.answer) $("answer").textContent = next.answer;
    $("measure").textContent = next.measure ? next.measure[0].toUpperCase() + next.measure.slice(1) : "";
    $("ranged").textContent = next.ranges || "";
    $("whynot").textContent = next.why_not || "";
    $("doubts").replaceChildren(...(next.uncertainties || []).map(u => make("li", {}, /[.!?]$/.test(u) ? u : u + ".")));
    $("steps").replaceChildren(...(next.steps || []).map(u => make("li", {}, u)));
    $("nextpart").hidden = false;
    if (state.cards) showCards({ cards: state.cards });
  }

  function showRanges(ranges) {
    $("doubt").textContent = "In small print: where eight of ten of " + ranges.draws + " tries lie, each with other values of the inputs that are in doubt. "
      + "More tries would move these ends a little.";
    state.cards.cards.forEach((card, i) => {
      const box = cards.get(card.strategy);
      box.ranges = {};
      for (const [key, spread] of Object.entries(ranges.of[i] || {})) if (!spread.same) box.ranges[key] = spread.text;
    });
    showCards({ cards: state.cards });
  }

  // Settings of a strategy, from the worker that has checked it.
  async function showSheet(box) {
    if (box.turn === state.turn && box.sheet.childElementCount) return;
    box.sheet.replaceChildren(make("p", {}, "Working out the settings…"));
    if (!document.body.dataset.draws) await new Promise(resolve => {
      const wait = setInterval(() => { if (document.body.dataset.draws) { clearInterval(wait); resolve(); } }, 100);
    });
    const turn = state.turn, reply = await slow.ask({ do: "sheet", strategy: box.at });
    if (turn !== state.turn) return;
    box.turn = turn;
    if (reply.errors) { box.sheet.replaceChildren(...reply.errors.map(f => make("p", {}, f.message + ". " + (f.fix || "")))); return; }
    box.sheet.replaceChildren(...unfit(reply.unfit || []), ...sheet(reply.sheet), ...(reply.sheet_is || []).map(t => make("p", {}, t)));
  }
  const list = (head, texts) => texts.length ? [make("h4", {}, head), make("ul", {}, ...texts.map(t => make("li", {}, t)))] : [];
  const unfit = texts => list("Does not fit; what follows is the nearest that does", texts);
  const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
  const round = v => String(Math.round(10 * v) / 10);
  function sheet(s) {
    if (!s) return [];
    const programs = new Map();
    for (const e of s.entries) {
      const key = (e.controller || "") + "/" + e.program;
      if (!programs.has(key)) programs.set(key, { first: e, zones: new Map(), percent: Array(12).fill(0) });
      const p = programs.get(key);
      p.zones.set(e.zone, e);
      p.percent[e.month - 1] = e.percent;
    }
    const out = (s.lead || []).map(t => make("p", {}, t));
    for (const p of programs.values()) {
      const name = p.first.program;
      out.push(make("h4", {}, (/^program\b/i.test(name) ? name[0].toUpperCase() + name.slice(1) : "Program " + name) + ": " + p.first.days + ", " + p.first.starts.join(" and ")));
      out.push(make("table", {}, make("thead", {}, make("tr", {}, ...["Zone", "Minutes", "Cycles"].map(t => make("th", { scope: "col" }, t)))),
        make("tbody", {}, ...[...p.zones.values()].map(e => make("tr", {}, make("th", { scope: "row" }, e.zone), make("td", {}, round(e.program_minutes)),
          make("td", {}, e.cycles > 1 ? e.cycles + " of " + round(e.cycle_minutes) + " min, soak " + round(e.soak_minutes) + " min" : "1"))))));
      out.push(make("p", {}, "Percent by month: " + p.percent.map((v, m) => months[m] + " " + (v ? round(v) : "off")).join(", ") + "."));
    }
    out.push(...list("Other settings of the controller and its sensors", s.controller || []));
    return out.concat([...(s.notes || []), ...(s.advice || [])].map(t => make("p", {}, t)));
  }

  // Sliders: those of the site, then those of one zone.
  function showControls() {
    const zones = [...new Set(state.controls.map(c => c.zone).filter(Boolean))];
    if (!zones.includes(state.zone)) state.zone = zones[0] || "";
    const choose = make("select", { id: "zone", onchange: e => { state.zone = e.target.value; show(); } },
      ...zones.map(z => make("option", { value: z, selected: z === state.zone }, z)));
    const site = make("div", {}), own = make("div", {});
    const show = () => {
      site.replaceChildren(...state.controls.filter(c => !c.zone).map(slider));
      own.replaceChildren(...state.controls.filter(c => c.zone && c.zone === state.zone).map(slider));
    };
    $("sliders").replaceChildren(site, zones.length ? make("p", {}, make("label", { for: "zone" }, "Zone "), choose) : "", own,
      state.fixed ? make("p", {}, state.fixed) : "");
    show();
  }
  function slider(c) {
    const id = "c-" + c.id, value = () => c.id in state.set ? state.set[c.id] : c.value;
    const text = () => c.id === "try.days" && value() === 0 ? "as they are" : value() + (c.unit === "%" ? "%" : " " + c.unit);
    const output = make("output", { for: id }), note = make("span", { class: "note", id: id + "-note" });
    const range = make("input", { type: "range", id, min: c.min, max: c.max, step: "any", "data-step": c.step, "aria-describedby": id + "-note" });
    const show = () => {
      range.value = value();
      range.setAttribute("aria-valuetext", text());
      output.textContent = text();
      note.textContent = (c.given ? "" : "A default, not measured. ") + (c.help || "") + (value() !== c.value ? " Was " + c.value + (c.unit === "%" ? "%" : " " + c.unit) + "." : "");
    };
    const put = v => {
      v = Math.min(c.max, Math.max(c.min, Math.round(v / c.step) * c.step));
      v = Math.round(v * 1e4) / 1e4;
      if (v === value()) return show();
      if (v === c.value) delete state.set[c.id]; else state.set[c.id] = v;
      show();
      move();
    };
    range.oninput = () => put(Number(range.value));
    range.onkeydown = e => { // steps by keys, whatever the value began with
      const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 5, PageDown: -5 }[e.key];
      if (by) { e.preventDefault(); put(value() + by * c.step); }
    };
    show();
    return make("div", { class: "slider" }, make("label", { for: id }, c.label), output, range, note);
  }

  function showAssumed(list) {
    $("assumed").replaceChildren(make("thead", {}, make("tr", {}, ...["Where", "What", "Used", "Source"].map(t => make("th", { scope: "col" }, t)))),
      make("tbody", {}, ...list.map(d => make("tr", {}, make("th", { scope: "row" }, d.where), make("td", {}, d.key),
        make("td", {}, d.value + (d.range ? " (usually " + d.range + ")" : "")), make("td", {}, d.grade + ": " + d.source)))));
    $("assumedpart").hidden = list.length === 0;
  }

  // The form is made of the engine's list of questions. Defaults, examples and what is asked
  // follow from the answers so far.
  const form = { typed: new Map(), zones: 1, units: "us", parts: new Map(), groups: new Map(), more: new Map() };
  const placeKey = at => [at.question, at.part, at.zone].join(".");
  const answersNow = what => ({ do: what, units: form.units, zones: form.zones,
    typed: [...form.typed].filter(([, at]) => at.zone < form.zones && at.text !== "") .map(([, at]) => at) });
  async function showForm() {
    const reply = await fast.ask(answersNow("questions"));
    const list = reply.questions.map((q, i) => {
      const box = make("fieldset", {}, make("legend", {}, (i + 1) + ". " + q.title), make("p", {}, make("b", {}, q.text), " " + q.help));
      const inside = make("div");
      box.append(inside);
      if (q.many) {
        const count = by => { form.zones = Math.max(1, form.zones + by); asked(); };
        box.append(make("p", { class: "buttons" }, make("button", { type: "button", onclick: () => count(1) }, "Add a zone"),
          make("button", { type: "button", onclick: () => count(-1) }, "Remove the last zone")));
      }
      form.groups.set(q.id, { question: q, inside, zones: new Map() });
      return box;
    });
    const units = make("select", { id: "units", onchange: e => { form.units = e.target.value; asked(); } },
      make("option", { value: "us" }, "gallons, feet, inches, °F"), make("option", { value: "si" }, "m³, meters, millimeters, °C"));
    $("questions").replaceChildren(make("p", {}, make("label", { for: "units" }, "Units "), units), ...list,
      make("p", { class: "buttons" }, make("button", { type: "submit", class: "main" }, "Show the cards")));
    showPlaces(reply);
    $("form").hidden = false;
  }
  let asking = false, again = false;
  async function asked() {
    again = true;
    if (asking) return;
    asking = true;
    while (again) { again = false; showPlaces(await fast.ask(answersNow("answers"))); }
    asking = false;
    document.body.dataset.asked = 1 + Number(document.body.dataset.asked || 0);
  }
  function showPlaces(reply) {
    const wrong = new Map((reply.wrong || []).map(f => [placeKey(f), f])), unusual = new Map((reply.unusual || []).map(f => [placeKey(f), f]));
    const at = new Map(), seen = new Set();
    for (const p of reply.places) {
      const group = form.groups.get(p.question), key = placeKey(p);
      let inside = group.inside;
      if (p.zone >= 0) {
        let zone = group.zones.get(p.zone);
        if (!zone) {
          zone = { legend: make("legend"), box: make("fieldset", { class: "zone" }) };
          zone.box.append(zone.legend);
          group.zones.set(p.zone, zone);
        }
        zone.legend.textContent = p.zone_name;
        seen.add(zone.box);
        if (zone.box.parentNode !== inside) inside.append(zone.box);
        inside = zone.box;
      }
      const q = group.question.parts.find(q => q.id === p.part);
      let part = form.parts.get(key);
      if (!part) form.parts.set(key, part = newPart(p, q));
      seen.add(part.element);
      if (q.later && group.question.parts.some(o => !o.later)) { // what few know is folded away; its default is listed with the cards
        let more = form.more.get(inside);
        if (!more) form.more.set(inside, more = make("details", { class: "more" }, make("summary", {}, "More, if you know it")));
        if (more.parentNode !== inside) inside.append(more);
        if (wrong.has(key)) more.open = true;
        inside = more;
      }
      const place = at.get(inside) || (inside === group.inside ? 0 : 1);
      if (inside.children[place] !== part.element) inside.insertBefore(part.element, inside.children[place] || null);
      at.set(inside, place + 1);
      part.show(p, wrong.get(key), unusual.get(key));
    }
    for (const [, part] of form.parts) if (!seen.has(part.element)) part.element.remove();
    for (const [, group] of form.groups) for (const [z, zone] of group.zones) if (!seen.has(zone.box)) { zone.box.remove(); group.zones.delete(z); }
  }
  function newPart(p, q) {
    const id = "q-" + placeKey(p), note = make("p", { class: "note", id: id + "-note" }), error = make("p", { class: "wrong", id: id + "-wrong", hidden: true });
    const put = text => { form.typed.set(placeKey(p), { question: p.question, part: p.part, zone: p.zone, text: text.trim() }); asked(); };
    let field;
    if (q.kind === "choice") {
      const know = make("option", { value: "" }, "don't know");
      field = make("select", { id, onchange: e => put(e.target.value) }, know, ...q.choices.map(c => make("option", { value: c.id }, c.text + (c.help ? " (" + c.help + ")" : ""))));
    } else if (q.kind === "file") {
      field = make("input", { type: "file", id, onchange: async e => {
        const f = e.target.files[0];
        if (f) state.files[f.name] = new Uint8Array(await f.arrayBuffer());
        put(f ? f.name : "");
      } });
    } else field = make("input", { type: "text", id, autocomplete: "off", onchange: e => put(e.target.value) });
    field.setAttribute("aria-describedby", id + "-note " + id + "-wrong");
    const label = make("label", { for: id }, q.text);
    return { element: make("div", { class: "part" }, label, field, note, error), show(p, wrong, unusual) {
      const unit = q.unit && q.unit[form.units];
      label.textContent = q.text + (unit ? " [" + unit + "]" : "");
      if (p.example && q.kind !== "choice" && q.kind !== "file") field.placeholder = "such as " + p.example;
      note.textContent = (q.help ? q.help + " " : "") + (p.none ? "Don't know: " + p.text + "." : "Don't know: " + p.text + " is used (" + [p.grade, p.source].filter(Boolean).join("; ") + ").");
      if (q.kind === "file" && form.typed.get(placeKey(p))) note.textContent = "Now: " + (form.typed.get(placeKey(p)).text || "none") + ". " + note.textContent;
      const told = wrong ? wrong.message + ": " + wrong.fix : unusual ? unusual.text : "";
      error.textContent = told;
      error.hidden = !told;
      if (wrong) field.setAttribute("aria-invalid", "true"); else field.removeAttribute("aria-invalid");
    } };
  }
  if ($("form")) $("form").onsubmit = async e => {
    e.preventDefault();
    say("Writing the scenario…");
    const reply = await fast.ask(answersNow("write"));
    say("");
    if (reply.errors) return errors(reply.errors);
    if (reply.wrong) {
      showPlaces({ ...(await fast.ask(answersNow("answers"))), wrong: reply.wrong });
      const first = form.parts.get(placeKey(reply.wrong[0]));
      if (first) first.element.querySelector("input, select").focus();
      return;
    }
    for (const f of reply.saved) state.files[f.name] = new TextEncoder().encode(f.text);
    state.opened = (state.opened || 0) + 1;
    state.made = reply.saved.slice(1);
    state.asked = true; // files added from now on are for the questions
    listFiles();
    await open(reply.saved[0].name);
    if (state.cards) $("site").focus();
  };

  // Files.
  async function take(list) {
    const names = [];
    for (const f of list) {
      state.files[f.name] = new Uint8Array(await f.arrayBuffer());
      names.push(f.name);
    }
    state.opened = (state.opened || 0) + 1;
    listFiles();
    const yaml = names.find(isScenario) || (!state.asked && isScenario(state.scenario) && state.files[state.scenario] ? state.scenario : "");
    if (yaml) {
      state.made = [];
      state.asked = false;
      return open(yaml);
    }
    // Without a scenario, the questions use them.
    const answer = (question, part, name) => name && form.typed.set(question + "." + part + ".-1", { question, part, zone: -1, text: name });
    answer("weather", "file", names.find(n => !/\.ya?ml$/i.test(n)));
    const rates = names.find(n => /\.ya?ml$/i.test(n));
    if (rates) form.typed.delete("price.price.-1"); // rates say more than one price
    answer("price", "rates", rates);
    await asked();
    if (state.asked) return $("form").requestSubmit(); // the cards follow from the questions
    say("Added " + names.join(", ") + " to the questions. Or add the scenario (YAML) that names it.");
  }
  const isScenario = name => /\.ya?ml$/i.test(name) && /^strategies:/m.test(new TextDecoder().decode(state.files[name] || new Uint8Array()));
  function listFiles() {
    if (!$("files")) return;
    $("files").textContent = Object.keys(state.files).length ? "Here: " + Object.keys(state.files).join(", ") + "." : "";
  }
  function keep(name, text) {
    const link = make("a", { href: URL.createObjectURL(new Blob([text], { type: "text/plain" })), download: name });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }
  async function save() {
    const reply = await fast.ask({ do: "save", set: state.set });
    if (reply.errors) return errors(reply.errors);
    for (const f of state.made || []) if (!reply.saved.some(s => s.name === f.name)) reply.saved.push(f);
    for (const f of reply.saved) keep(f.name, f.text);
    say("Saved " + reply.saved.map(f => f.name).join(", ").replace(/, ([^,]*)$/, " and $1") + ". Keep them together with the files that you opened: this page and the program loamledger give the same numbers for them.");
  }

  async function sample() {
    fast = fast || new Engine();
    const reply = await fast.ask({ do: "sample" });
    if (reply.errors) return errors(reply.errors);
    for (const f of reply.saved) state.files[f.name] = new TextEncoder().encode(f.text);
    state.opened = (state.opened || 0) + 1;
    state.made = [];
    state.asked = false;
    listFiles();
    await open(reply.saved[0].name);
  }

  if ($("sample")) $("sample").onclick = sample;
  if ($("pick")) $("pick").onchange = e => { take([...e.target.files]); e.target.value = ""; };
  $("save").onclick = save;
  $("reset").onclick = () => { state.set = {}; showControls(); move(); };
  $("print").onclick = () => print();
  // Paper shows sources and cautions once, and every value that was not given.
  let paper, opened;
  addEventListener("beforeprint", () => {
    const sources = document.querySelector("#cards details:not(.sheet)"), values = $("assumedpart");
    if (sources && !paper) {
      values.before(paper = sources.cloneNode(true));
      paper.open = true;
    }
    if (opened = !values.open) values.open = true;
  });
  addEventListener("afterprint", () => {
    if (paper) paper.remove();
    if (opened) $("assumedpart").open = false;
    paper = opened = undefined;
  });
  if ($("pick")) {
    addEventListener("dragover", e => { e.preventDefault(); });
    addEventListener("drop", e => { e.preventDefault(); take([...e.dataTransfer.files]); });
  }

  // A page that has files inside opens them at once.
  const inside = $("inside");
  if (inside) {
    const packedFiles = JSON.parse(inside.textContent);
    for (const [name, text] of Object.entries(packedFiles.files)) state.files[name] = Uint8Array.from(atob(text), c => c.charCodeAt(0));
    $("alive").hidden = $("alive-link").hidden = false;
    open(packedFiles.scenario).catch(fail);
  } else {
    fast = new Engine();
    fast.ready.then(() => { document.body.dataset.ready = Math.round(performance.now()); say(""); return showForm(); })
      .then(() => { document.body.dataset.form = "shown"; }).catch(fail);
  }
})();
