// SPDX-License-Identifier: MIT
#include <string>
#include <string_view>

#include "show/feed_page.h"

namespace trug::show {
namespace {

// On paper: one sheet, without what is secret (class screen). Browsers print a page's address in
// its margin, and there is none.
constexpr std::string_view kStyle = R"(:root {
  color-scheme: light dark;
  --paper: #fdfcf8;
  --ink: #22241f;
  --soft: #585b52;
  --link: #1c4f8a;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #191a17;
    --ink: #e7e5dc;
    --soft: #aeada2;
    --link: #9cc4f5;
  }
}
html { background: var(--paper); color: var(--ink); }
body {
  margin: 0 auto;
  max-width: 36rem;
  padding: 1.25rem 1.25rem 3rem;
  font: 1.0625rem/1.5 "Iowan Old Style", "Palatino Linotype", Palatino, "Noto Serif", Georgia, serif;
  overflow-wrap: break-word;
}
h1 { margin: 0; font-size: 1.6rem; line-height: 1.2; }
h2 { margin: 2.2rem 0 0.5rem; font-size: 1.2rem; line-height: 1.3; }
h3 { margin: 1.2rem 0 0.3rem; font-size: 1.0625rem; }
p { margin: 0.5rem 0; }
ul { margin: 0.5rem 0; padding-left: 1.1rem; }
li { margin: 0.3rem 0; }
li p { margin: 0.1rem 0; }
time { white-space: nowrap; }
.soft { color: var(--soft); }
a { color: var(--link); text-underline-offset: 0.15em; }
a:focus-visible { outline: 3px solid var(--link); outline-offset: 3px; }
code { font-size: 0.95rem; overflow-wrap: anywhere; }
figure { margin: 1.2rem 0; }
figure img { display: block; width: 13rem; max-width: 100%; height: auto; }
figcaption { margin-top: 0.3rem; }
figure.chart img { width: 100%; }
.broken { border: 2px solid currentColor; padding: 0.6rem 0.8rem; }
@page { size: A4; margin: 0; }
@media print {
  :root { --paper: #fff; --ink: #000; --soft: #000; }
  body { max-width: none; padding: 9mm; font-size: 8.5pt; line-height: 1.22; }
  main { columns: 2; column-gap: 6mm; }
  h1, .soft, .broken { column-span: all; }
  h1 { font-size: 15pt; }
  h2 { margin: 0.6em 0 0.2em; font-size: 11pt; break-after: avoid; }
  h3 { margin: 0.4em 0 0; font-size: 9pt; break-after: avoid; }
  p, ul, li { margin: 0.1em 0; }
  li { break-inside: avoid; }
  .screen { display: none; }
}
)";

}  // namespace

std::string feed_style() { return std::string(kStyle); }

}  // namespace trug::show
