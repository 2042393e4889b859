// @ts-check
/** Takes a file that is dropped on a form, as if it had been chosen there. */

for (const form of document.querySelectorAll("form[data-drop]")) {
  const field = form.querySelector("input[type=file]");
  if (!(field instanceof HTMLInputElement)) continue;
  form.addEventListener("dragover", (event) => {
    event.preventDefault();
    form.classList.add("over");
  });
  form.addEventListener("dragleave", () => form.classList.remove("over"));
  form.addEventListener("drop", (event) => {
    event.preventDefault();
    form.classList.remove("over");
    const files = event instanceof DragEvent ? event.dataTransfer?.files : undefined;
    if (files?.length === 1) {
      field.files = files;
      field.focus();
    }
  });
}
