// @ts-check
/** Moves a game on the board by drag or by keyboard; the server judges the place before it is kept. */

/** @typedef {{row: number, column: number}} At */

/**
 * Return where an arrow leads from a place, kept within the board.
 * @param {At} at
 * @param {string} key
 * @param {{rows: number, columns: number}} board
 * @returns {At}
 */
export function step(at, key, board) {
  const by = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] }[key];
  const [down, across] = by ?? [0, 0];
  return {
    row: Math.min(Math.max(at.row + (down ?? 0), 0), board.rows - 1),
    column: Math.min(Math.max(at.column + (across ?? 0), 0), board.columns - 1),
  };
}

/**
 * Return the address that judges a game at a place.
 * @param {string} here the address of the board
 * @param {string} game
 * @param {string} place
 * @returns {string}
 */
export function judged(here, game, place) {
  const [path, asked] = here.split("?");
  const query = new URLSearchParams(asked);
  query.set("game", game);
  query.set("place", place);
  return `${path}?${query}`;
}

/** One board of the page, and the game that is in the hand. */
class Board {
  /** @param {HTMLTableElement} table */
  constructor(table) {
    this.table = table;
    this.says = document.querySelector("[data-board-says]");
    /** @type {HTMLElement | null} */
    this.held = null;
    /** @type {HTMLElement | null} */
    this.over = null;
    table.addEventListener("keydown", (event) => this.pressed(event));
    table.addEventListener("dragstart", (event) => this.dragged(event));
    table.addEventListener("dragover", (event) => this.hovers(event));
    table.addEventListener("drop", (event) => this.dropped(event));
    table.addEventListener("dragend", () => this.putBack());
  }

  /** @returns {HTMLElement[][]} */
  get squares() {
    const rows = [...this.table.tBodies[0]?.rows ?? []];
    return rows.map((row) => [...row.querySelectorAll("td")]);
  }

  /** @param {string} words */
  tell(words) {
    if (this.says) this.says.textContent = words;
  }

  /** @param {KeyboardEvent} event */
  pressed(event) {
    if (this.held === null) {
      const game = event.target instanceof Element ? event.target.closest("[data-game]") : null;
      if (event.key !== " " || !(game instanceof HTMLElement)) return;
      event.preventDefault();
      this.pickUp(game);
      return;
    }
    if (event.key === "Escape") {
      event.preventDefault();
      const game = this.held;
      this.putBack();
      game.focus();
    } else if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.drop(this.over);
    } else if (event.key.startsWith("Arrow")) {
      event.preventDefault();
      this.go(event.key);
    } else if (event.key === "Tab") {
      this.putBack();
    }
  }

  /** @param {HTMLElement} game */
  pickUp(game) {
    this.held = game;
    game.classList.add("held");
    this.mark(game.closest("td"));
    this.tell(`Game ${game.dataset.game} is picked up. Arrows go to a place, Enter looks at it, Escape puts it back.`);
  }

  putBack() {
    if (this.held === null) return;
    this.held.classList.remove("held");
    this.tell(`Game ${this.held.dataset.game} is back where it was.`);
    this.held = null;
    this.mark(null);
  }

  /** @param {HTMLElement | null} square */
  mark(square) {
    this.over?.classList.remove("over");
    this.over = square;
    square?.classList.add("over");
    square?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }

  /** @param {string} key */
  go(key) {
    const squares = this.squares;
    const row = squares.findIndex((one) => this.over !== null && one.includes(this.over));
    const column = squares[row]?.findIndex((one) => one === this.over) ?? 0;
    const size = { rows: squares.length, columns: squares[0]?.length ?? 1 };
    const to = step({ row, column }, key, size);
    const square = squares[to.row]?.[to.column] ?? null;
    this.mark(square);
    this.tell(`${square?.dataset.says}: ${square?.textContent?.trim().replace(/\s+/g, " ")}`);
  }

  /** @param {HTMLElement | null} square */
  drop(square) {
    const game = this.held?.dataset.game;
    const place = square?.dataset.place;
    if (game === undefined || place === undefined) return;
    if (square === this.held?.closest("td")) {
      this.putBack();
      return;
    }
    this.held?.classList.remove("held");
    this.held = null;
    this.tell(`Game ${game} is looked at there.`);
    window.location.assign(`${judged(this.table.dataset.here ?? "", game, place)}#move`);
  }

  /** @param {DragEvent} event */
  dragged(event) {
    const game = event.target instanceof Element ? event.target.closest("[data-game]") : null;
    if (!(game instanceof HTMLElement) || event.dataTransfer === null) return;
    event.dataTransfer.effectAllowed = "move";
    event.dataTransfer.setData("text/plain", game.dataset.game ?? "");
    this.held = game;
  }

  /** @param {DragEvent} event */
  hovers(event) {
    const square = event.target instanceof Element ? event.target.closest("td") : null;
    if (this.held === null || square === null) return;
    event.preventDefault();
    if (square !== this.over) this.mark(square);
  }

  /** @param {DragEvent} event */
  dropped(event) {
    event.preventDefault();
    const square = event.target instanceof Element ? event.target.closest("td") : null;
    this.drop(square);
  }
}

if (typeof document !== "undefined") {
  for (const table of document.querySelectorAll("table[data-board]")) {
    if (table instanceof HTMLTableElement) new Board(table);
  }
  if (window.location.hash === "#move") document.getElementById("move")?.focus();
}
