// @ts-check
/** Lets Enter go to the next field of a form that asks for it; in the last one it sends the form. */

/**
 * Return the field after one, or null where it is the last.
 * @param {readonly HTMLElement[]} fields those that can be seen, in their order
 * @param {HTMLElement} from
 * @returns {HTMLElement | null}
 */
export function after(fields, from) {
  return fields[fields.indexOf(from) + 1] ?? null;
}

/**
 * Tell whether Enter makes a new line: in a field of several lines, after something was typed.
 * @param {EventTarget | null} field
 * @returns {boolean}
 */
export function breaksLine(field) {
  return (
    field instanceof HTMLTextAreaElement &&
    field.value.slice(0, field.selectionStart).split("\n").at(-1) !== ""
  );
}

for (const form of document.querySelectorAll("form[data-enter-next]")) {
  form.addEventListener("keydown", (event) => {
    const field = event.target;
    const isPlain = event instanceof KeyboardEvent && event.key === "Enter" && !event.isComposing;
    if (!isPlain || !(field instanceof HTMLElement) || field.matches("button, summary, a")) return;
    if (breaksLine(field)) return;
    const fields = [...form.querySelectorAll("input:not([type=hidden]), select, textarea")].filter(
      (one) => one instanceof HTMLElement && one.checkVisibility(),
    );
    const next = after(/** @type {HTMLElement[]} */ (fields), field);
    event.preventDefault();
    if (next === null) {
      if (form instanceof HTMLFormElement) form.requestSubmit();
      return;
    }
    next.focus();
    if (next instanceof HTMLInputElement) next.select();
  });
}
