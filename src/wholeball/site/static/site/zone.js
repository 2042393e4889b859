// @ts-check
/** Offers the time zone of this machine where nobody has chosen one yet. */

const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
for (const choice of document.querySelectorAll("select[data-own-zone]")) {
  if (!(choice instanceof HTMLSelectElement)) continue;
  if ([...choice.options].some((one) => one.value === zone)) choice.value = zone;
}
