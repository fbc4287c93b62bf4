#include "live/page.hpp"

#include <fmt/core.h>

#include "drawing/svg.hpp"
#include "emit/frame_words.hpp"
#include "live/live_words.hpp"

namespace norma::live {

std::string page_policy(std::string_view nonce) {
  return fmt::format("default-src 'none'; style-src 'nonce-{0}'; script-src 'nonce-{0}'; "
                     "connect-src 'self'; img-src data:; base-uri 'none'; form-action 'none'",
                     nonce);
}

std::string page_html(std::string_view nonce, const wording::Language& in) {
  const auto text = [&](const diag::Said& what) { return drawing::escaped(in.text(what)); };
  constexpr std::string_view body = R"(<header>
<h1 id="title">norma</h1>
<p id="about" hidden></p>
<p id="status" role="status">{reading}</p>
</header>
<nav aria-label="{views}">
<ol id="views"></ol>
<p class="more" id="more-views" hidden></p>
<div class="bar"><button type="button" id="follow" aria-pressed="true">{follow}</button><p>{keys}</p></div>
</nav>
<main>
<p id="no-view" hidden></p>
<section id="view" aria-labelledby="view-title" hidden>
<header aria-live="polite"><h2 id="view-title"></h2><p id="code" hidden></p><p id="of" hidden></p></header>
<p id="warning" role="status" hidden></p>
<figure id="finder" hidden><div class="drawing"></div><figcaption></figcaption></figure>
<p id="missing" hidden></p>
<h3 id="settings-title" hidden></h3>
<dl id="settings"></dl>
<ul id="worked"></ul>
<figure id="above" hidden><div class="drawing"></div><figcaption></figcaption></figure>
<p class="more" id="numbers" hidden></p>
<p class="more" id="model" hidden></p>
</section>
<section id="findings" aria-labelledby="findings-title">
<h2 id="findings-title">{findings}</h2>
<p id="none" hidden>{none}</p>
<h3 id="here-title" hidden>{here}</h3>
<ul id="here"></ul>
<h3 id="rest-title" hidden>{rest}</h3>
<ul id="rest"></ul>
<p class="more" id="more-findings" hidden></p>
</section>
<section id="open" aria-labelledby="open-title">
<h2 id="open-title">{open}</h2>
<ul id="open-here"></ul>
<ul id="open-all"></ul>
</section>
</main>
<footer><p id="caution" hidden></p></footer>
)";
  return fmt::format(
      "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<link rel=\"icon\" href=\"data:,\">\n"
      "<title>norma</title>\n<style nonce=\"{}\">\n{}{}</style>\n</head>\n"
      "<body data-ended=\"{}\">\n{}<script nonce=\"{}\">\n{}</script>\n</body>\n</html>\n",
      in.tag(), page_policy(nonce), nonce, page_style, drawing::svg_style(), text(said::ended()),
      fmt::format(
          body, fmt::arg("reading", text(said::reading())), fmt::arg("views", text(said::views())),
          fmt::arg("follow", text(said::follow())), fmt::arg("keys", text(said::keys())),
          fmt::arg("findings", text(said::findings())), fmt::arg("none", text(said::none_found())),
          fmt::arg("here", text(said::of_this_view())), fmt::arg("rest", text(said::of_the_rest())),
          fmt::arg("open", text(said::not_checked()))),
      nonce, page_script);
}

} // namespace norma::live
