/**
 * Runs in the panel beside the text: draws what the extension sends, block by block, marks what is written at the
 * cursor, and says when something was clicked. It fetches nothing, and runs nothing of what it is sent.
 */
(() => {
  const editor = acquireVsCodeApi();
  const main = document.querySelector("main");
  const notice = document.querySelector("#notice");
  const none = document.querySelector("#none");
  const style = document.querySelector("#style");
  /** The texts of the blocks as they are drawn, in order. */
  let drawn = [];
  /** Where each id is written: { id, file, line }. */
  let places = [];
  /** The cursor: { file, line }; file is -1 where no file of the sheet has it. */
  let cursor = { file: -1, line: 0 };

  const elementOf = (text) => {
    const template = document.createElement("template");
    template.innerHTML = text;
    return template.content.firstElementChild;
  };

  /** Blocks that are the same at the beginning and at the end stay; those between are put in anew. */
  const draw = (blocks) => {
    let start = 0;
    while (start < blocks.length && start < drawn.length && blocks[start] === drawn[start]) start += 1;
    let end = 0;
    while (
      end < blocks.length - start &&
      end < drawn.length - start &&
      blocks[blocks.length - 1 - end] === drawn[drawn.length - 1 - end]
    )
      end += 1;
    const old = [...main.children].slice(start, drawn.length - end);
    const fresh = blocks.slice(start, blocks.length - end).map(elementOf);
    const before = main.children[drawn.length - end] ?? null;
    for (const element of fresh) main.insertBefore(element, before);
    for (const element of old) element.remove();
    for (const field of main.querySelectorAll("input")) field.tabIndex = -1;
    drawn = blocks;
  };

  const tieToText = () => {
    for (const element of main.querySelectorAll("[data-at]")) element.removeAttribute("data-at");
    for (const [index, { id }] of places.entries()) {
      const element = document.getElementById(id);
      if (element === null || element.dataset.at !== undefined) continue;
      element.dataset.at = String(index);
      if (element.matches(".step, h2")) element.tabIndex = 0;
    }
  };

  /** What is written at the cursor, else above it: in the steps sooner than in the lists at the front. */
  const atCursor = () => {
    const before = [...main.querySelectorAll("[data-at]")].filter((element) => {
      const { file, line } = places[element.dataset.at];
      return file === cursor.file && line <= cursor.line;
    });
    const nearest = Math.max(...before.map((element) => places[element.dataset.at].line));
    const best = before.filter((element) => places[element.dataset.at].line === nearest);
    return best.find((element) => element.closest(".step, .section") !== null) ?? best[0];
  };

  const mark = (scrolls) => {
    for (const element of main.querySelectorAll(".here")) element.classList.remove("here");
    const here = atCursor();
    if (here === undefined) return;
    here.classList.add("here");
    if (!scrolls) return;
    const { top, bottom } = here.getBoundingClientRect();
    const isSeen =
      bottom > notice.offsetHeight &&
      top < innerHeight - 20 &&
      (top >= notice.offsetHeight || bottom <= innerHeight);
    if (!isSeen) here.scrollIntoView({ block: bottom - top > innerHeight ? "start" : "center" });
  };

  const tell = (text) => {
    notice.textContent = text;
    notice.hidden = text === "";
  };

  const showNone = (message, others) => {
    none.hidden = message === "";
    main.hidden = message !== "";
    none.querySelector("p").textContent = message;
    none.querySelector("ul").replaceChildren(
      ...others.map((other) => {
        const button = document.createElement("button");
        button.type = "button";
        button.textContent = other.title;
        button.addEventListener("click", () => editor.postMessage({ type: "choose", of: other }));
        const item = document.createElement("li");
        item.append(button);
        return item;
      }),
    );
  };

  const take = {
    sheet: (sheet) => {
      if (style.textContent !== sheet.style) style.textContent = sheet.style;
      document.documentElement.lang = sheet.lang;
      showNone("", []);
      draw(sheet.blocks);
      places = sheet.places;
      tieToText();
      tell(sheet.notice);
      editor.setState({ of: sheet.of });
      mark(false);
    },
    none: ({ message, others }) => {
      tell("");
      showNone(message, others);
    },
    notice: ({ text }) => tell(text),
    cursor: ({ file, line, follows }) => {
      cursor = { file, line };
      mark(follows);
    },
  };
  addEventListener("message", ({ data }) => take[data.type]?.(data));

  const goTo = (element) => {
    const place = places[element.closest("[data-at]")?.dataset.at];
    if (place !== undefined) editor.postMessage({ type: "go", file: place.file, line: place.line });
  };
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[href]");
    const inside = link?.getAttribute("href").startsWith("#");
    if (inside) {
      event.preventDefault();
      document.getElementById(decodeURIComponent(link.getAttribute("href").slice(1)))?.scrollIntoView();
    } else if (link === null && event.target.closest("summary") === null) goTo(event.target);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.dataset?.at !== undefined) goTo(event.target);
  });
  editor.postMessage({ type: "ready" });
})();
