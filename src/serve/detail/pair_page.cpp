#include "serve/detail/pair_page.hpp"

namespace sowtide::serve::detail {
namespace {

constexpr const char* kHtml = R"(<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Sowtide</title>
<link rel="icon" href="/icon.svg">
<link rel="stylesheet" href="/pair.css">
<script src="/pair.js" defer></script>
</head>
<body>
<main>
<h1 id="title">Pair this device with the garden</h1>
<p id="how">Type the code that the computer with the garden shows.</p>
<form id="form">
<label for="code" id="code-label">Code</label>
<input id="code" autocomplete="off" autocapitalize="characters" spellcheck="false" maxlength="32" required>
<button id="send">Pair</button>
</form>
<p id="outcome" role="status"></p>
<p id="keep">Once paired, put the page on the home screen as a bookmark. A browser installs no app from an unencrypted
home network; the bookmark opens while the computer with the garden is in reach.</p>
</main>
</body>
</html>
)";

constexpr const char* kCss =
    R"(body { font: 1.1rem/1.5 system-ui, sans-serif; margin: 0; background: #fff; color: #1b1b1b; }
main { max-width: 26rem; margin: 0 auto; padding: 1.5rem 1rem; }
h1 { font-size: 1.4rem; }
label, input, button { display: block; width: 100%; box-sizing: border-box; font: inherit; }
input { padding: .7rem; letter-spacing: .15em; border: 2px solid #444; border-radius: .3rem; background: #fff; color: #000; }
button { margin-top: 1rem; padding: .9rem; border: 0; border-radius: .3rem; background: #1b1b1b; color: #fff; }
input:focus-visible, button:focus-visible { outline: 3px solid #0b57d0; outline-offset: 2px; }
@media (prefers-color-scheme: dark) {
  body { background: #161616; color: #f2f2f2; }
  button { background: #f2f2f2; color: #161616; }
}
)";

constexpr const char* kScript = R"JS('use strict';
const german = {
  title: 'Dieses Gerät mit dem Garten verbinden',
  how: 'Den Code eingeben, den der Rechner mit dem Garten zeigt.',
  'code-label': 'Code',
  send: 'Verbinden',
  keep: 'Danach die Seite als Lesezeichen auf den Startbildschirm legen. Als App richtet sie kein Browser aus einem unverschlüsselten Heimnetz ein; das Lesezeichen öffnet sich, solange der Rechner mit dem Garten erreichbar ist.',
};
const words = {
  en: { wrong: 'That is not the code, or it has run out.', many: 'Too many attempts. Wait a minute.', away: 'The garden was not reached.', install: 'Once paired, install the page from the menu of the browser. It then opens without the computer with the garden too, with what it showed last.' },
  de: { wrong: 'Das ist nicht der Code, oder er ist abgelaufen.', many: 'Zu viele Versuche. Eine Minute warten.', away: 'Der Garten war nicht zu erreichen.', install: 'Danach die Seite im Menü des Browsers als App einrichten. Sie öffnet sich dann auch ohne den Rechner mit dem Garten, mit dem, was sie zuletzt gezeigt hat.' },
};
const language = navigator.language.startsWith('de') ? 'de' : 'en';
const at = (id) => document.getElementById(id);
if (language === 'de') {
  document.documentElement.lang = 'de';
  for (const [id, text] of Object.entries(german)) at(id).textContent = text;
}
// Over HTTPS the browser has found the authority of this home to be trusted, so it can keep the page.
if (location.protocol === 'https:') at('keep').textContent = words[language].install;
at('code').value = decodeURIComponent(location.hash.slice(1));
at('form').addEventListener('submit', async (event) => {
  event.preventDefault();
  const body = JSON.stringify({ code: at('code').value, name: navigator.platform || '' });
  try {
    const answer = await fetch('/api/pair', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body });
    if (answer.ok) location.replace('/');
    else at('outcome').textContent = words[language][answer.status === 429 ? 'many' : 'wrong'];
  } catch {
    at('outcome').textContent = words[language].away;
  }
});
)JS";

}  // namespace

std::vector<Asset> pair_page() {
  Asset page = make_asset("/pair.html", kHtml);
  page.path = kPairPage;
  return {std::move(page), make_asset("/pair.css", kCss), make_asset("/pair.js", kScript)};
}

}  // namespace sowtide::serve::detail
