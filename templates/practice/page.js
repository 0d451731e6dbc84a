// The practice page: shows what the core says and hands back what was typed. It knows nothing about
// questions itself; every number and every sentence about them is the core's.
"use strict";

(() => {
  const element = (id) => document.getElementById(id);

  /** A new element; attributes that are null or false are left out, true stands for an empty one. */
  function make(tag, attributes = {}, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes))
      if (value !== null && value !== false) made.setAttribute(name, value === true ? "" : value);
    made.append(...children.filter((child) => child !== null));
    return made;
  }

  /** The core's markup, which it has escaped, in an element of its own. */
  function made_of(tag, attributes, html) {
    const made = make(tag, attributes);
    made.innerHTML = html;
    return made;
  }

  /** As a sentence or a heading begins. */
  function capital(text) {
    return text.charAt(0).toLocaleUpperCase(document.documentElement.lang) + text.slice(1);
  }

  function show(shown, ...ids) {
    for (const id of ids) element(id).hidden = !shown;
  }

  // ---- What the browser keeps --------------------------------------------------------------------

  /** localStorage, where the browser lets a page have it; else this visit only. */
  const kept = {
    lasting: true,
    visit: new Map(),
    read(key) {
      try {
        return window.localStorage.getItem(key) ?? "";
      } catch {
        this.lasting = false;
        return this.visit.get(key) ?? "";
      }
    },
    write(key, text) {
      this.visit.set(key, text);
      try {
        if (text) window.localStorage.setItem(key, text);
        else window.localStorage.removeItem(key);
        this.lasting = true;
      } catch {
        this.lasting = false;
      }
    },
  };
  const progress_key = "footroom-practice";
  const choice_key = "footroom-practice-choice";

  const state = {
    core: null,
    words: {},
    language: "en",
    units: "us",
    decimal_mark: "point",
    progress: "",
    without_topics: [], // what is not practised: a topic that a later page adds is practised at first
    without_levels: [],
    week: 0,
    question: null,
    feedback: null,
    steps: [],
    trying_again: false, // at a question whose first answer is marked
    order: [], // letters, as the reader has put them
    choosing: true,
  };

  function remember_choice() {
    const { language, units, without_topics, without_levels, week } = state;
    kept.write(choice_key, JSON.stringify({ language, units, without_topics, without_levels, week }));
  }

  function recall_choice(offered) {
    let earlier = {};
    try {
      earlier = JSON.parse(kept.read(choice_key) || "{}") ?? {};
    } catch {
      // Not ours: the first choice then.
    }
    const texts = (list) => (Array.isArray(list) ? list.filter((one) => typeof one === "string") : []);
    state.language = offered.languages.includes(earlier.language)
      ? earlier.language
      : first_language(offered);
    state.units = offered.units.includes(earlier.units) ? earlier.units : offered["default-units"];
    state.without_topics = texts(earlier.without_topics);
    state.without_levels = texts(earlier.without_levels);
    state.week = Number.isInteger(earlier.week) ? earlier.week : 0;
  }

  /** The language that the page was made for; where that is the usual one, the reader's own. */
  function first_language(offered) {
    const made_for = offered["default-language"];
    if (made_for !== offered.languages[0]) return made_for;
    const own = navigator.languages.map((tag) => tag.split("-")[0]);
    return own.find((language) => offered.languages.includes(language)) ?? made_for;
  }

  // ---- Words -------------------------------------------------------------------------------------

  function word(id, ...parts) {
    const text = state.words[id] ?? id;
    return text.replace(/\{(\d)\}/g, (whole, number) => parts[number - 1] ?? whole);
  }

  function put_words_in_place(reply) {
    state.words = reply.words;
    document.documentElement.lang = state.language;
    document.title = reply.title || word("title");
    for (const one of document.querySelectorAll("[data-words]"))
      one.textContent = word(one.dataset.words);
    for (const one of document.querySelectorAll("[data-label]"))
      one.setAttribute("aria-label", word(one.dataset.label));
    if (reply["course-title"]) document.querySelector(".title").textContent = reply["course-title"];
    element("caution").textContent = reply["caution-text"];
    element("rules-used").textContent = word("rules-used", reply["rules-title"]);
    tell_where_kept();
  }

  function tell_where_kept() {
    const text = word(kept.lasting ? "kept-here" : "kept-nowhere");
    element("kept-note").textContent = text;
    element("kept-where").textContent = text;
  }

  function put_languages_in_place(languages) {
    const buttons = languages
      .filter((language) => language !== state.language)
      .map((language) => {
        const own = state.core.ask({ ask: "words", language, units: state.units }).words;
        const button = make("button", { type: "button", lang: language }, own["language-name"]);
        button.addEventListener("click", () => change_language(language, languages));
        return button;
      });
    element("languages").replaceChildren(...buttons);
  }

  function change_language(language, languages) {
    const typed = element("answer")?.value;
    const chosen = chosen_letters();
    state.language = language;
    remember_choice();
    put_words_in_place(ask("words"));
    put_languages_in_place(languages);
    notice();
    const { order } = state;
    show_view();
    put_answer_back(typed, chosen, order);
    element("languages").querySelector("button")?.focus();
  }

  // ---- Talking with the core ---------------------------------------------------------------------

  /**
   * The core's reply; its progress is kept at once. What it refuses, or fails at, is shown, and gives
   * null.
   */
  function ask(what, fields = {}) {
    const reply = state.core.ask({
      ask: what,
      language: state.language,
      units: state.units,
      "decimal-mark": state.decimal_mark,
      progress: state.progress,
      ...fields,
    });
    if (typeof reply.progress === "string") keep_progress(reply.progress);
    if (reply["progress-note"]) {
      notice(reply["progress-note"]);
      if (typeof reply.progress !== "string") keep_progress("");
    }
    if (reply.fault) tell_fault(reply.fault);
    if (reply.error) notice(...refusal(reply));
    return reply.fault || reply.error ? null : reply;
  }

  /** What the core refuses, in the page's language or behind words that are. */
  function refusal({ error, "error-language": lang }) {
    return lang ? [`${word("refused")} `, make("span", { lang }, error)] : [error];
  }

  function keep_progress(text) {
    state.progress = text;
    const lasting = kept.lasting;
    kept.write(progress_key, text);
    if (lasting !== kept.lasting) tell_where_kept();
  }

  function notice(...parts) {
    element("notice").replaceChildren(...parts);
  }

  function fresh_seed() {
    const [high, low] = crypto.getRandomValues(new Uint32Array(2));
    return String((high % 2 ** 21) * 2 ** 32 + low);
  }

  // ---- Views -------------------------------------------------------------------------------------

  const views = { practice: ["choosing", "asking"], progress: ["looking-back"], bench: ["trying"] };

  function current_view() {
    const name = location.hash.slice(1);
    return name in views ? name : "practice";
  }

  function show_view() {
    const view = current_view();
    const section =
      view === "practice" ? (state.choosing ? "choosing" : "asking") : views[view][0];
    for (const name of ["starting", ...Object.values(views).flat()]) show(name === section, name);
    show(true, "views");
    for (const link of document.querySelectorAll("#views a"))
      if (link.hash === `#${view}`) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    if (section === "choosing") show_choosing();
    if (section === "asking") show_open_question();
    if (section === "looking-back") show_progress();
    if (section === "trying") show_bench();
    return section;
  }

  /** Shows the view that the address names, and puts the focus on its heading. */
  function go_to_view() {
    notice();
    const section = element(show_view());
    focus_heading(section.querySelector("h1"));
  }

  function focus_heading(heading) {
    heading.focus({ preventScroll: true });
    if (heading.tagName === "H1") window.scrollTo(0, 0);
    else heading.scrollIntoView({ block: "start" });
  }

  // ---- Choosing ----------------------------------------------------------------------------------

  function choice(type, name, value, checked, ...texts) {
    const input = make("input", { type, name, value });
    input.checked = checked;
    return make("label", { class: "choice" }, input, make("span", {}, ...texts));
  }

  function show_choosing() {
    const reply = ask("topics");
    if (!reply) return;
    element("so-far").textContent = reply.asked ? reply["asked-text"] : word("so-far-none");
    element("topic-list").replaceChildren(
      ...reply.topics.map((topic) => {
        const numbers = topic.asked
          ? word("topic-so-far", topic.asked, topic.right) +
            (topic.due ? ` · ${word("topic-due", topic.due)}` : "")
          : "";
        return choice(
          "checkbox",
          "topic",
          topic.id,
          !state.without_topics.includes(topic.id),
          topic.title,
          numbers ? make("span", { class: "quiet under" }, numbers) : null,
        );
      }),
    );
    element("level-list").replaceChildren(
      ...reply.levels.map(({ level, title }) =>
        choice("checkbox", "level", level, !state.without_levels.includes(String(level)), title),
      ),
    );
    show_weeks(reply.weeks ?? []);
    element("unit-list").replaceChildren(
      ...["us", "si"].map((units) =>
        choice("radio", "units", units, units === state.units, word(`units-${units}`)),
      ),
    );
    element("choice-problem").textContent = "";
    for (const id of ["start", "start-below"])
      element(id).textContent = word(reply.asked ? "go-on" : "start");
    show(is_open(), "back");
  }

  function show_weeks(weeks) {
    show(weeks.length > 0, "week-field");
    const select = element("week");
    select.replaceChildren(
      make("option", { value: 0 }, word("any-week")),
      ...weeks.map((week) =>
        make("option", { value: week.number }, word("week-name", week.number)),
      ),
    );
    select.value = state.week;
    select.onchange = () => {
      const week = weeks.find(({ number }) => number === Number(select.value));
      for (const box of boxes("topic")) box.checked = !week || week.topics.includes(box.value);
      note_choice();
    };
  }

  const boxes = (name) => [...element("choices").querySelectorAll(`input[name="${name}"]`)];
  const marked = (name) => boxes(name).filter((box) => box.checked).map((box) => box.value);
  const left_out = (name) => boxes(name).filter((box) => !box.checked).map((box) => box.value);

  function note_choice() {
    state.without_topics = left_out("topic");
    state.without_levels = left_out("level");
    state.week = Number(element("week").value);
    const [units] = marked("units");
    if (units !== state.units) {
      state.units = units;
      if (is_open()) notice(word("units-next"));
    }
    element("choice-problem").textContent = "";
    remember_choice();
  }

  function is_open() {
    return Boolean(state.question) && !state.feedback;
  }

  function go_back_to_question() {
    state.choosing = false;
    go_to_view();
  }

  function start(event) {
    event.preventDefault();
    note_choice();
    const missing =
      marked("topic").length === 0 ? "one-topic" : marked("level").length === 0 ? "one-level" : "";
    if (missing) {
      element("choice-problem").textContent = word(missing);
      boxes(missing === "one-topic" ? "topic" : "level")[0]?.focus();
    } else {
      next_question();
    }
  }

  // ---- Asking ------------------------------------------------------------------------------------

  function chosen_topics(topics) {
    return state.without_topics.length === 0
      ? []
      : topics.map(({ id }) => id).filter((id) => !state.without_topics.includes(id));
  }

  function next_question() {
    const offered = ask("topics");
    if (!offered) return;
    const levels = offered.levels.map(({ level }) => level);
    const reply = ask("question", {
      seed: fresh_seed(),
      topics: chosen_topics(offered.topics),
      levels: state.without_levels.length
        ? levels.filter((level) => !state.without_levels.includes(String(level)))
        : [],
    });
    if (!reply) {
      state.choosing = true;
      const told = [...element("notice").childNodes];
      go_to_view();
      notice(...told);
      return;
    }
    state.choosing = false;
    go_to_view();
  }

  function show_open_question() {
    const reply = ask("current");
    if (!reply || !reply.question) {
      state.question = null;
      state.choosing = true;
      show_view();
      return;
    }
    state.question = reply.question;
    state.feedback = reply.answered ? reply.feedback : null;
    state.trying_again = false;
    state.steps = reply.steps ?? [];
    state.order = reply.question.options?.map(({ letter }) => letter) ?? [];
    show_question();
    if (state.feedback) show_verdict();
    else show_answer_form();
    show_steps();
  }

  function show_question() {
    const { question } = state;
    element("question-aside").textContent = [
      word("question-number", question.number),
      question["topic-title"],
      question["level-title"],
    ].join(" · ");
    element("question-title").textContent = question.title;
    show(question.again, "question-again");
    element("question-again").textContent = question["again-text"] || word("again");
    element("stem").innerHTML = question["stem-html"];
    show_figure(element("figure"), question["figure-html"]);
    show(Boolean(question["box-html"]), "box");
    element("box").open = false;
    element("box-body").innerHTML = question["box-html"];
  }

  /** A drawing, and what it shows in words. A drawing wider than the screen scrolls in its place. */
  function show_figure(place, html) {
    place.hidden = !html;
    place.replaceChildren();
    if (!html) return;
    place.append(made_of("div", { class: "drawing" }, html));
    place.classList.remove("enlarged");
    const larger = make("button", { type: "button", class: "larger", "aria-pressed": "false" });
    larger.textContent = word("larger");
    larger.addEventListener("click", () => enlarge(larger, place));
    const words = [...place.querySelectorAll("desc")].map((one) => one.textContent).join(" ");
    place.append(
      larger,
      make("details", {}, make("summary", {}, word("figure-words")), make("p", {}, words)),
    );
    let_all_scroll(place);
  }

  function enlarge(button, place) {
    button.setAttribute("aria-pressed", String(place.classList.toggle("enlarged")));
    let_all_scroll(place);
  }

  /** What scrolls in its place must take the focus, so that keys can scroll it. */
  function let_scroll(box) {
    const names = { tabindex: "0", role: "group", "aria-label": word("scrolls") };
    const scrolls = box.scrollWidth > box.clientWidth + 1;
    for (const [name, value] of Object.entries(names))
      if (scrolls) box.setAttribute(name, value);
      else box.removeAttribute(name);
  }

  const scrolling = ".drawing, .term, #box-body .formulas li";
  function let_all_scroll(place = document) {
    for (const box of place.querySelectorAll(scrolling)) let_scroll(box);
  }

  function show_answer_form() {
    const { question } = state;
    show(true, "answer-form", "answer-buttons");
    show(false, "verdict", "others", "why", "end-buttons");
    element("answer-problem").textContent = "";
    const field = element("answer-field");
    if (question.kind === "number") field.replaceChildren(...number_field(question));
    else if (question.kind === "order") field.replaceChildren(...order_field(question));
    else field.replaceChildren(choice_field(question));
  }

  function number_field({ unit }) {
    const input = make("input", {
      id: "answer",
      type: "text",
      autocomplete: "off",
      autocapitalize: "off",
      autocorrect: "off",
      spellcheck: "false",
      enterkeyhint: "done",
      maxlength: 200,
      "aria-describedby": "reading answer-problem",
    });
    input.addEventListener("input", tell_reading);
    return [
      make("label", { for: "answer" }, unit ? word("answer-in", unit) : word("answer")),
      make(
        "div",
        { class: "typed" },
        input,
        unit ? make("span", { class: "unit", "aria-hidden": "true" }, unit) : null,
      ),
      make("p", { id: "reading", class: "reading" }),
      make("p", { id: "reading-news", class: "unseen", role: "status" }),
    ];
  }

  // Seen at once, but spoken only when the typing rests.
  let reading_rest = 0;
  function tell_reading() {
    const typed = element("answer").value;
    element("answer-problem").textContent = "";
    element("answer").removeAttribute("aria-invalid");
    const reply = ask("reading", { typed });
    if (!reply) return;
    const text = reply.read
      ? word("read-as", reply.read)
      : reply.problem
        ? word("not-read", reply.problem)
        : "";
    element("reading").textContent = text;
    clearTimeout(reading_rest);
    reading_rest = setTimeout(() => {
      if (element("reading-news")) element("reading-news").textContent = text;
    }, 1200);
  }

  function option_text(option) {
    return made_of("span", { class: "option" }, option["text-html"]);
  }

  function choice_field({ kind, instruction, options }) {
    const type = kind === "several-of" ? "checkbox" : "radio";
    const choices = options.map((option) => {
      const input = make("input", { type, name: "option", value: option.letter });
      input.addEventListener("change", () => (element("answer-problem").textContent = ""));
      return make(
        "label",
        { class: "choice" },
        input,
        make("span", { class: "letter" }, option.letter),
        option_text(option),
      );
    });
    return make(
      "fieldset",
      { "aria-describedby": "answer-problem" },
      make("legend", {}, instruction),
      ...choices,
    );
  }

  function order_field({ instruction }) {
    return [
      make(
        "fieldset",
        { "aria-describedby": "order-note" },
        make("legend", {}, instruction),
        make("p", { class: "quiet", id: "order-note" }, word("order-note")),
        make("ol", { class: "order", id: "order" }, ...order_lines()),
        make("p", { class: "unseen", id: "order-news", role: "status" }),
      ),
    ];
  }

  function option_of(letter) {
    return state.question.options.find((option) => option.letter === letter);
  }

  function order_lines() {
    return state.order.map((letter, index) => {
      const move = (by, id, sign) => {
        const to = index + by;
        const possible = to >= 0 && to < state.order.length;
        const button = make(
          "button",
          {
            type: "button",
            class: "arrow",
            "aria-label": `${word(id)}: ${letter}`,
            "aria-disabled": !possible && "true",
            "data-move": `${letter}${by}`,
          },
          make("span", { "aria-hidden": "true" }, sign),
        );
        if (possible) button.addEventListener("click", () => move_line(index, to, by));
        return button;
      };
      return make(
        "li",
        {},
        make("span", { class: "place", "aria-hidden": "true" }, String(index + 1)),
        make("span", { class: "letter" }, letter),
        option_text(option_of(letter)),
        make("span", { class: "arrows" }, move(-1, "move-up", "▲"), move(1, "move-down", "▼")),
      );
    });
  }

  function move_line(from, to, by) {
    const [letter] = state.order.splice(from, 1);
    state.order.splice(to, 0, letter);
    element("order").replaceChildren(...order_lines());
    element("order").querySelector(`[data-move="${letter}${by}"]`).focus();
    element("order-news").textContent = word("moved", letter, to + 1, state.order.length);
  }

  function chosen_letters() {
    return [...element("answer-field").querySelectorAll('input[name="option"]:checked')].map(
      (box) => box.value,
    );
  }

  /** After a change of language the form is new; what stood in it stays. */
  function put_answer_back(typed, chosen, order) {
    if (!state.question || state.feedback) return;
    if (element("answer") && typed) {
      element("answer").value = typed;
      tell_reading();
    }
    for (const box of element("answer-field").querySelectorAll('input[name="option"]'))
      box.checked = chosen.includes(box.value);
    if (element("order") && order.length === state.order.length) {
      state.order = order;
      element("order").replaceChildren(...order_lines());
    }
  }

  function written_answer() {
    const { kind } = state.question;
    if (kind === "number") return element("answer").value.trim();
    return (kind === "order" ? state.order : chosen_letters()).join(kind === "order" ? " " : ", ");
  }

  function check(event) {
    event.preventDefault();
    const typed = written_answer();
    if (typed) mark(typed);
    else refuse(word(state.question.kind === "number" ? "type-something" : "mark-something"));
  }

  function refuse(text) {
    element("answer-problem").textContent = text;
    const field = element("answer") ?? element("answer-field").querySelector("input, button");
    if (field.id === "answer") field.setAttribute("aria-invalid", "true");
    field.focus();
  }

  function mark(typed) {
    const reply = ask("mark", { typed });
    if (!reply) return;
    if (reply.feedback.mark === "none") {
      refuse(word("not-read", reply.feedback.reason));
      return;
    }
    state.feedback = reply.feedback;
    show_verdict();
    show_steps();
    focus_heading(element("verdict-title"));
  }

  // ---- Verdict -----------------------------------------------------------------------------------

  const signs = { right: "✓", part: "◐", wrong: "✗" };

  function line(term, ...content) {
    return make("div", {}, make("dt", {}, term), make("dd", {}, ...content));
  }

  function sign_of(mark) {
    return make("span", { class: `sign ${mark}`, "aria-hidden": "true" }, signs[mark]);
  }

  function show_verdict() {
    const { feedback } = state;
    const open = feedback.mark === "right" || feedback.outcome === "empty";
    show(false, "answer-form");
    show(true, "verdict", "end-buttons");
    const told = feedback["outcome-text"];
    element("verdict-title").replaceChildren(
      sign_of(feedback.mark),
      feedback.mark === "wrong" && feedback.outcome !== "empty"
        ? word("not-right")
        : capital(told),
    );
    element("verdict").className = feedback.mark;
    element("verdict-body").replaceChildren(verdict_lines());
    const buttons = [button("next", next_question, "main")];
    if (!open) {
      buttons.push(button("try-again", try_again), button("show-right", show_right_answer));
      buttons.at(-1).id = "show-right";
    }
    element("verdict-buttons").replaceChildren(...buttons);
    show(false, "right-answer");
    element("right-answer").replaceChildren();
    show_others();
    show_why();
    if (open) show_right_answer();
  }

  function button(id, act, kind = null) {
    const made = make("button", { type: "button", class: kind }, word(id));
    made.addEventListener("click", act);
    return made;
  }

  function verdict_lines() {
    const { question, feedback } = state;
    const lines = [];
    if (feedback.outcome !== "empty") lines.push(line(word("answer"), ...own_answer()));
    const wrong = feedback.options.filter((option) => option.chosen && !option.right);
    const says =
      feedback["mistake-html"] ||
      (question.kind === "order" ? "" : wrong.map((option) => option["says-html"]).join(""));
    if (says) lines.push(line(word("what-went-wrong"), made_of("div", {}, says)));
    const list = make("dl", { class: "outcomes" }, ...lines);
    const notes = [feedback["points-text"], feedback["returns-text"]].filter(Boolean).join(" · ");
    return make("div", {}, list, notes ? make("p", { class: "quiet" }, notes) : null);

    function own_answer() {
      if (question.kind === "number") {
        const read = make("strong", {}, feedback.read || feedback.typed);
        const differs = feedback.read && feedback.read !== feedback.typed;
        return differs
          ? [read, " ", make("span", { class: "quiet" }, word("typed-as", feedback.typed))]
          : [read];
      }
      if (question.kind === "order") return [make("strong", {}, feedback.read || feedback.typed)];
      const chosen = feedback.options.filter((option) => option.chosen);
      return chosen.map((option) =>
        make("div", { class: "chosen" }, make("span", { class: "letter" }, option.letter),
          option_text(option)),
      );
    }
  }

  function try_again() {
    state.feedback = null;
    state.trying_again = true;
    show_answer_form();
    show_steps();
    const note = make("p", { class: "quiet" }, word("try-note"));
    element("answer-field").append(note);
    const first = element("answer") ?? element("answer-field").querySelector("input, button");
    first.focus();
    first.scrollIntoView({ block: "center" });
  }

  function show_right_answer() {
    const { question, feedback } = state;
    const place = element("right-answer");
    const parts = [];
    if (question.kind === "number") {
      const within = feedback["within-text"] ? ` (${feedback["within-text"]})` : "";
      parts.push(
        make("p", {}, make("strong", {}, feedback["right-text"]),
          make("span", { class: "quiet" }, within)),
      );
    } else if (question.kind === "order") {
      const sorted = [...feedback.options].sort((one, other) => one.place - other.place);
      parts.push(make("ol", { class: "order right-order" }, ...sorted.map(placed_option)));
    } else {
      parts.push(make("ul", { class: "marked-options" }, ...feedback.options.map(marked_option)));
    }
    const title = make(
      "h3",
      { tabindex: "-1" },
      word(question.kind === "order" ? "right-order" : "right-answer"),
    );
    place.replaceChildren(title, ...parts);
    place.hidden = false;
    const button = element("show-right");
    if (button) {
      button.remove();
      title.focus();
    }
  }

  function placed_option(option) {
    return make(
      "li",
      {},
      make("span", { class: "place", "aria-hidden": "true" }, String(option.place)),
      make("span", { class: "letter" }, option.letter),
      option_text(option),
    );
  }

  function marked_option(option) {
    const mark = option.right ? "right" : "wrong";
    const says = option["says-html"];
    return make(
      "li",
      { class: mark },
      sign_of(mark),
      make("span", { class: "letter" }, option.letter),
      make(
        "div",
        { class: "option" },
        option_text(option),
        make(
          "p",
          { class: "quiet" },
          word(option.right ? "is-right" : "is-wrong"),
          option.chosen ? ` · ${word("you-marked")}` : "",
        ),
        says ? made_of("div", { class: "says" }, says) : null,
      ),
    );
  }

  function show_others() {
    const others = state.feedback.others ?? [];
    show(others.length > 0, "others");
    element("others").open = false;
    element("others-body").replaceChildren(
      make(
        "dl",
        { class: "others" },
        ...others.map((other) => line(other.text, made_of("div", {}, other["says-html"]))),
      ),
    );
  }

  function show_why() {
    const { limits = [], sources = [], cautions = [] } = state.feedback;
    show(limits.length + sources.length + cautions.length > 0, "why");
    element("why").open = false;
    const lists = [];
    const list = (title, entries) => {
      if (entries.length)
        lists.push(make("h3", {}, word(title)), make("ul", { class: "references" }, ...entries));
    };
    list("limits", limits.map((limit) => make("li", {}, ...limit_words(limit))));
    list("sources", sources.map((source) =>
      make("li", {},
        capital(source.citation),
        source.supports ? `: ${source.supports}` : "",
        source["status-text"] !== source.citation ? make("span", { class: "quiet" }, ` (${source["status-text"]})`) : null,
      )));
    list("take-care", cautions.map((caution) => make("li", {}, caution)));
    lists.push(make("p", { class: "quiet" }, word("status-note")));
    element("why-body").replaceChildren(...lists);
  }

  function limit_words(limit) {
    return [
      `${capital(limit.name)}: `,
      make("strong", {}, limit.text),
      make("span", { class: "quiet" },
        ` – ${limit.citation}${limit["status-text"] ? ` (${limit["status-text"]})` : ""}`),
    ];
  }

  // ---- Worked steps ------------------------------------------------------------------------------

  function show_steps() {
    const { question, feedback, steps } = state;
    const left = question.steps - steps.length;
    show(question.steps > 0 || !feedback, "solution");
    element("solution-title").textContent = word(feedback ? "solution" : "stuck");
    element("help-note").textContent = feedback || state.trying_again ? "" : word("help-note");
    element("steps").replaceChildren(...steps.map(step_line));
    let_all_scroll(element("steps"));
    element("step-news").textContent = "";
    tell_steps_left(left);
    show(!feedback, "give-up");
    const drawn = feedback && left <= 0 ? feedback["figure-html"] : "";
    show_figure(element("key-figure"), drawn);
  }

  function tell_steps_left(left) {
    show(left > 0, "show-step");
    element("show-step").textContent = word(
      "show-step",
      state.steps.length + 1,
      state.question.steps,
    );
  }

  function step_line(step) {
    const formula = step["symbols-html"]
      ? [
          made_of("span", { class: "term" }, step["symbols-html"]),
          made_of("span", { class: "term" }, `<span>=</span>${step["numbers-html"]}`),
          make("span", { class: "term result" }, `= ${step.result}`),
        ]
      : [];
    return make(
      "li",
      { tabindex: "-1" },
      step["says-html"] ? made_of("div", { class: "says" }, step["says-html"]) : null,
      formula.length ? make("div", { class: "working" }, ...formula) : null,
    );
  }

  function show_next_step() {
    const reply = ask("step");
    if (!reply || !reply.step) return;
    state.steps.push(reply.step);
    show_steps();
    const newest = element("steps").lastElementChild;
    newest.focus({ preventScroll: true });
    newest.scrollIntoView({ block: "nearest" });
    if (reply.left === 0) element("step-news").textContent = word("all-steps");
  }

  // ---- Progress ----------------------------------------------------------------------------------

  function show_progress() {
    const reply = ask("topics");
    if (!reply) return;
    element("progress-text").textContent = reply.asked
      ? reply["asked-text"]
      : word("progress-none");
    const head = (id) => make("th", { scope: "col", class: id === "topic" ? null : "number" }, word(id));
    const rows = reply.topics.map((topic) =>
      make(
        "tr",
        {},
        make("th", { scope: "row" }, topic.title),
        ...[topic.asked, topic.right, topic.due].map((number) =>
          make("td", { class: "number" }, String(number)),
        ),
      ),
    );
    element("progress-table").replaceChildren(
      make(
        "table",
        { "aria-labelledby": "progress-title" },
        make("thead", {}, make("tr", {}, ...["topic", "asked", "right", "due"].map(head))),
        make("tbody", {}, ...rows),
      ),
    );
    element("result-news").textContent = "";
    show(true, "forget-first");
    show(false, "forget-confirm");
  }

  function save_result(event) {
    event.preventDefault();
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    const date = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    const reply = ask("result", { name: element("result-name").value.trim(), date });
    if (!reply) return;
    if (!reply.questions) {
      element("result-news").textContent = word("result-none");
      return;
    }
    const address = URL.createObjectURL(new Blob([reply.json], { type: "application/json" }));
    make("a", { href: address, download: reply["file-name"] }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
    element("result-news").textContent = word("result-saved", reply["file-name"], reply.questions);
  }

  function begin_sitting() {
    if (!ask("new-sitting")) return;
    leave_question();
    show_progress();
    notice(word("sitting-begun"));
  }

  function leave_question() {
    state.question = null;
    state.feedback = null;
    state.choosing = true;
  }

  function ask_whether_to_forget() {
    show(false, "forget-first");
    show(true, "forget-confirm");
    element("keep-progress").focus();
  }

  function keep_it() {
    show(true, "forget-first");
    show(false, "forget-confirm");
    element("forget").focus();
  }

  function forget() {
    if (!ask("forget")) return;
    keep_progress("");
    leave_question();
    show_progress();
    notice(word("forgotten"));
    focus_heading(element("progress-title"));
  }

  // ---- The bench ---------------------------------------------------------------------------------

  let bench_values = {};
  let bench_units = ""; // those of the values
  let bench_waits = false;
  let bench_shape = "";
  let bench_broken = "";
  let bench_rest = 0;

  /** Once a frame at most, however fast a slider moves. */
  function bench_changed(id, value) {
    bench_values[id] = value;
    if (bench_waits) return;
    bench_waits = true;
    requestAnimationFrame(() => {
      bench_waits = false;
      show_bench();
    });
  }

  function show_bench() {
    const reply = ask("bench", {
      values: bench_values,
      "values-units": bench_units || state.units,
    });
    if (!reply) return;
    bench_units = state.units;
    bench_values = {};
    for (const control of reply.controls) bench_values[control.id] = control.value;
    show_controls(reply.controls);
    show(!reply.problem, "bench-results", "bench-scenes");
    element("bench-problem").textContent = reply.problem ?? "";
    show(!reply.problem, "broken-limits");
    if (!reply.problem) show_bench_results(reply);
  }

  function show_controls(controls) {
    const shape = JSON.stringify([
      state.language,
      controls.map(({ id, name, unit, least, most, choices }) => [id, name, unit, least, most, choices]),
    ]);
    if (shape !== bench_shape) {
      bench_shape = shape;
      const fields = (more) =>
        controls.filter(({ group }) => (group === "more") === more).map(control_field);
      element("control-list").replaceChildren(...fields(false));
      element("more-controls-list").replaceChildren(...fields(true));
      show(element("more-controls-list").children.length > 0, "more-controls");
    }
    for (const control of controls) put_value(control);
  }

  function control_field(control) {
    const id = `control-${control.id}`;
    if (control.kind === "word") {
      const select = make(
        "select",
        { id },
        ...control.choices.map((one) => make("option", { value: one.id }, one.name)),
      );
      select.addEventListener("change", () => bench_changed(control.id, select.value));
      return make(
        "p",
        { class: "control" },
        make("label", { for: id }, capital(control.name)),
        select,
      );
    }
    const slider = make("input", {
      id,
      type: "range",
      min: control.least,
      max: control.most,
      step: control.step,
      "aria-describedby": `${id}-problem`,
    });
    slider.addEventListener("input", () => bench_changed(control.id, Number(slider.value)));
    const typed = make("input", {
      id: `${id}-typed`,
      type: "text",
      autocomplete: "off",
      spellcheck: "false",
      "aria-label": control.unit
        ? word("typed-value", capital(control.name), control.unit)
        : word("typed-number", capital(control.name)),
      "aria-describedby": `${id}-problem`,
    });
    typed.addEventListener("change", () => take_typed(control, typed));
    return make(
      "div",
      { class: "control" },
      make(
        "label",
        { for: id },
        capital(control.name),
        control["symbol-html"]
          ? made_of("span", { class: "symbol", "aria-hidden": "true" }, control["symbol-html"])
          : null,
      ),
      make(
        "div",
        { class: "typed" },
        typed,
        control.unit ? make("span", { class: "unit", "aria-hidden": "true" }, control.unit) : null,
      ),
      slider,
      make("p", { class: "problem", id: `${id}-problem` }),
    );
  }

  const fraction_mark = () => (state.decimal_mark === "comma" ? "," : ".");
  const in_figures = (number) => String(number).replace(".", fraction_mark());

  function take_typed(control, typed) {
    const number = typed.value.trim() ? Number(typed.value.trim().replace(",", ".")) : NaN;
    const fits = number >= control.least && number <= control.most;
    if (fits) {
      bench_changed(control.id, number);
      return;
    }
    typed.setAttribute("aria-invalid", "true");
    element(`control-${control.id}-problem`).textContent = word(
      "out-of-range",
      in_figures(control.least),
      in_figures(control.most),
    );
  }

  function put_value(control) {
    const field = element(`control-${control.id}`);
    field.value = control.value;
    if (control.kind === "word") return;
    field.setAttribute("aria-valuetext", control["value-text"]);
    const typed = element(`control-${control.id}-typed`);
    typed.value = in_figures(control.value);
    typed.removeAttribute("aria-invalid");
    element(`control-${control.id}-problem`).textContent = "";
  }

  function show_bench_results(reply) {
    // The first stays in sight; the others stand with the results.
    const [scene, ...others] = reply.scenes;
    draw(element("bench-scenes"), scene["figure-html"]);
    put_lines(
      element("more-scenes"),
      others,
      (other) => other.title,
      (other) => make("section", {}, make("h2", {}, capital(other.title)), make("div")),
      () => [],
    );
    others.forEach((other, at) => {
      draw(element("more-scenes").children[at].lastElementChild, other["figure-html"]);
    });
    show_limits(reply.limits);
    show(Boolean(reply.stack), "stack");
    if (reply.stack) {
      draw(element("stack-figure"), reply.stack["figure-html"]);
      put_lines(
        element("stack-table"),
        [reply.stack],
        (stack) => [stack.broken, stack.terms.map((term) => term.name)],
        stack_table,
        (stack) => [
          ...stack.terms.map((term) => term.text),
          stack["total-text"],
          stack["available-text"],
        ],
      );
    }
    show(Boolean(reply["plot-html"]), "plot-section");
    draw(element("plot"), reply["plot-html"]);
    put_lines(
      element("outputs"),
      reply.outputs,
      (output) => output.name,
      (output) =>
        line(
          capital(output.name),
          output["symbol-html"]
            ? made_of("span", { class: "symbol" }, `${output["symbol-html"]} = `)
            : null,
          make("strong", { "data-text": true }),
        ),
      (output) => [output.text],
    );
    const items = (texts) => texts.map((text) => make("li", {}, capital(text)));
    element("bench-notes").replaceChildren(...items(reply.notes));
    show(reply.cautions.length > 0, "bench-care");
    element("bench-cautions").replaceChildren(...items(reply.cautions));
  }

  /** Into the same box each time: asking for its width would lay out the page once more a frame. */
  function draw(place, html) {
    if (!place.firstElementChild) place.append(make("div", { class: "drawing" }));
    place.firstElementChild.innerHTML = html;
  }

  /**
   * A list whose texts change with every step of a slider. While its lines stay the same, only the
   * texts are put in anew. line: makes an element whose [data-text] take the texts in turn.
   */
  function put_lines(place, entries, key, line, texts) {
    const shape = JSON.stringify([state.language, entries.map(key)]);
    if (place.dataset.shape !== shape) {
      place.dataset.shape = shape;
      place.replaceChildren(...entries.map(line));
    }
    entries.forEach((entry, at) => {
      const fields = place.children[at].querySelectorAll("[data-text]");
      texts(entry).forEach((text, which) => {
        if (fields[which].textContent !== text) fields[which].textContent = text;
      });
    });
  }

  function show_limits(limits) {
    put_lines(
      element("limit-list"),
      limits,
      (limit) => [limit.name, limit.broken],
      (limit) =>
        make(
          "li",
          { class: limit.broken ? "wrong" : "right" },
          sign_of(limit.broken ? "wrong" : "right"),
          make(
            "div",
            {},
            make("p", {}, make("strong", {}, capital(limit.name)), ` – ${limit["verdict-text"]}`),
            make("p", { "data-text": true }),
            make("p", { class: "quiet" }, `${limit.citation} (${limit["status-text"]})`),
          ),
        ),
      (limit) => [word("limit-line", limit.text, limit["value-text"])],
    );
    const broken = limits.filter((limit) => limit.broken);
    put_lines(
      element("broken-limits"),
      broken.length ? broken : [null],
      (limit) => limit?.name ?? "",
      (limit) =>
        limit
          ? make("li", { class: "wrong" }, sign_of("wrong"),
              make("span", {}, make("strong", {}, capital(limit.name)), ": ",
                make("span", { "data-text": true })))
          : make("li", {}, word("all-kept")),
      (limit) => (limit ? [word("limit-line", limit.text, limit["value-text"])] : []),
    );
    announce(broken.map((limit) => capital(limit.name)).join("; "));
  }

  /** Spoken when the sliders rest, and only where another limit is broken than before. */
  function announce(broken) {
    clearTimeout(bench_rest);
    bench_rest = setTimeout(() => {
      if (broken === bench_broken) return;
      bench_broken = broken;
      element("bench-news").textContent = broken ? word("now-broken", broken) : word("all-kept");
    }, 800);
  }

  function stack_table(stack) {
    const row = (name, kind = null) =>
      make(
        "tr",
        { class: kind },
        make("th", { scope: "row" }, name),
        make(
          "td",
          { class: "number" },
          kind === "wrong" ? "✗ " : "",
          make("span", { "data-text": true }),
        ),
      );
    return make(
      "table",
      { "aria-labelledby": "stack-title" },
      make(
        "thead",
        {},
        make(
          "tr",
          {},
          make("th", { scope: "col" }, word("part")),
          make("th", { scope: "col", class: "number" }, word("length")),
        ),
      ),
      make(
        "tbody",
        {},
        ...stack.terms.map((term) => row(capital(term.name))),
        row(word("needed"), "total"),
        stack.broken ? row(word("available-too-little"), "wrong") : row(word("available")),
      ),
    );
  }

  // ---- Beginning ---------------------------------------------------------------------------------

  /** Never a blank page: what the reader is told where the page itself fails. */
  function tell_fault(fault) {
    const said = String(fault?.message ?? fault);
    const english =
      "Something went wrong in this page, and that is our fault. Reload it; your progress was kept up to the last answer. It said: {1}";
    const text = (state.words.fault ?? english).replace("{1}", said);
    element("fault").replaceChildren(make("p", {}, text));
    show(false, "starting");
  }

  function listen() {
    window.addEventListener("hashchange", go_to_view);
    window.addEventListener("storage", (event) => {
      if (event.key !== progress_key) return;
      state.progress = event.newValue ?? ""; // the same page in another tab went on
      show_view();
    });
    window.addEventListener("resize", () => {
      let_all_scroll();
    });
    for (const link of document.querySelectorAll("#views a"))
      link.addEventListener("click", () => {
        if (link.hash === location.hash) go_to_view();
        if (link.hash === "#practice" && current_view() === "practice") choose_anew();
      });
    element("choices").addEventListener("submit", start);
    element("back").addEventListener("click", go_back_to_question);
    document.querySelector(".skip").addEventListener("click", (event) => {
      event.preventDefault(); // the address names a view
      element("content").focus();
    });
    element("choices").addEventListener("change", note_choice);
    element("box").addEventListener("toggle", () => let_all_scroll(element("box")));
    const set_all = (checked) => () => {
      for (const box of boxes("topic")) box.checked = checked;
      element("week").value = 0;
      note_choice();
    };
    element("all-topics").addEventListener("click", set_all(true));
    element("no-topics").addEventListener("click", set_all(false));
    element("answer-form").addEventListener("submit", check);
    element("give-up").addEventListener("click", () => mark(""));
    element("show-step").addEventListener("click", show_next_step);
    element("next-again").addEventListener("click", next_question);
    element("result-form").addEventListener("submit", save_result);
    element("new-sitting").addEventListener("click", begin_sitting);
    element("forget").addEventListener("click", ask_whether_to_forget);
    element("keep-progress").addEventListener("click", keep_it);
    element("forget-progress").addEventListener("click", forget);
    element("controls").addEventListener("submit", (event) => event.preventDefault());
    for (const button of document.querySelectorAll("[data-enlarges]"))
      button.addEventListener("click", () => enlarge(button, element(button.dataset.enlarges)));
    element("bench-start").addEventListener("click", () => {
      bench_values = {};
      show_bench();
    });
  }

  /** "Practise" again, while a question is open: back to topics and levels. */
  function choose_anew() {
    if (state.choosing) return;
    state.choosing = true;
    go_to_view();
  }

  async function begin() {
    window.addEventListener("error", (event) => tell_fault(event.error ?? event.message));
    window.addEventListener("unhandledrejection", (event) => tell_fault(event.reason));
    state.core = await startFootroom();
    const offered = state.core.ask({ ask: "words", language: "en", units: "us" });
    if (offered.fault) throw new Error(offered.fault);
    recall_choice(offered);
    state.decimal_mark = offered["default-decimal-mark"];
    state.progress = kept.read(progress_key);
    put_words_in_place(ask("words"));
    put_languages_in_place(offered.languages);
    listen();
    state.choosing = !ask("current")?.question;
    show_view();
  }

  begin().catch(tell_fault);
})();
