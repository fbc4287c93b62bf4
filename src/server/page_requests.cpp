// norma/page, norma/view: the page of `norma live` where the editor shows it.
#include "live/page.hpp"
#include "server/requests.hpp"

namespace norma::server {

void State::show_page_of(const Document& document) {
  if (document.language() != Language::protocol) return;
  page_.show_file(document.file);
  look_again();
}

void State::look_again() {
  if (documents_.of_file(page_.file()) != nullptr) make_stale(page_.file(), true);
}

void State::tell_page() {
  page_.tell([this](const live::Shown& shown) {
    notify("norma/state", {{"state", Out::parse(shown.state())}});
  });
  look_again();
}

void State::offer_address(const std::string& address) {
  if (shows_documents_)
    ask("window/showDocument", {{"uri", address}, {"external", true}}, "norma.show");
  else
    show(said::page_at(address), false);
}

/// The page; from now on `norma/state` tells what is on it. With a document: of that one.
Reply page(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  if (const Document* document = document_of(state, params)) state.show_page_of(*document);
  const auto nonce = live::random_key();
  if (!nonce) return Refusal{Refusal::internal_error, said::no_random()};
  state.tell_page();
  return Out{{"html", live::page_html(*nonce, state.language())}};
}

/// One view of what is on the page.
Reply page_view(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const auto number = number_in(member(&params, "view"));
  if (!number) return bad_parameters("norma/view");
  const auto shown = state.page().shown();
  if (shown == nullptr || *number < 0) return Out(nullptr);
  const auto json = shown->view(static_cast<std::size_t>(*number));
  return json ? Out::parse(*json) : Out(nullptr);
}

/// The command: the page on an address of its own, which the editor opens where it can.
Reply open_page(State& state, const In& params) {
  const In* arguments = member(&params, "arguments");
  if (arguments != nullptr && arguments->is_array() && !arguments->empty()) {
    const auto uri = text_in(&arguments->front());
    const Document* document = uri ? state.document(*uri) : nullptr;
    if (document == nullptr) return bad_parameters("workspace/executeCommand");
    state.show_page_of(*document);
  }
  const auto opened = state.page().open();
  if (const auto* why = std::get_if<diag::Said>(&opened))
    return Refusal{Refusal::internal_error, *why};
  const auto& address = std::get<std::string>(opened);
  state.look_again();
  state.offer_address(address);
  return Out{{"uri", address}};
}

} // namespace norma::server
