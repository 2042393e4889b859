// @ts-check
/** Says why the browser gave no passkey. */

/** @returns {string} which of the page's reasons holds */
function reason() {
  if (/^[\d.]+$|^\[/.test(location.hostname)) return "address";
  return window.isSecureContext ? "refused" : "plain";
}

document.addEventListener("allauth.error", (failed) => {
  failed.preventDefault();
  const told = reason();
  for (const one of document.querySelectorAll("[data-passkey-refused] [data-why]")) {
    if (one instanceof HTMLElement) one.hidden = one.dataset.why !== told;
  }
});
