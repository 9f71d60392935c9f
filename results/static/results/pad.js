/* Tells at the pad which kind the score makes. The server knows the rule, this only asks. */

let asked = 0;

async function suggest(form) {
  const told = form.querySelector("[data-suggested]");
  const [won, lost] = ["won", "lost"].map((name) => form.elements[name]?.value ?? "");
  const turn = ++asked;
  let words = "";
  if (won !== "" && lost !== "") {
    const address = new URL(form.dataset.kind, location.href);
    address.search = new URLSearchParams({ won, lost }).toString();
    try {
      const answer = await fetch(address, { headers: { Accept: "application/json" } });
      if (answer.ok) words = (await answer.json()).words;
    } catch {
      words = "";
    }
  }
  if (turn !== asked || !told) return;
  told.textContent = words ? told.dataset.suggested.replace("{kind}", words) : "";
}

document.addEventListener("input", (event) => {
  const form = event.target.closest?.("form[data-kind]");
  if (form && ["won", "lost"].includes(event.target.name)) suggest(form);
});
