// What requests share: finding their document, and what they are made of.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "server/server_words.hpp"
#include "server/state.hpp"

namespace norma::server {

/// A protocol that is asked about, as it is now; null members where it is none, or not open.
struct Asked {
  const Document* document = nullptr;
  std::shared_ptr<const workspace::Parsed> parsed; // null where it is no protocol

  [[nodiscard]] const text::Source& source() const { return *parsed->version->source; }
};
Asked asked_about(State& state, const In& params);
/// The document that a request names; null where it names none that is open.
Document* document_of(State& state, const In& params);
/// What is answered where there is no text of a protocol to ask about; nothing where there is.
std::optional<Reply> no_text(const Asked& asked, const In& params);
/// Where in its text; nothing where that is not told.
std::optional<std::size_t> offset_in(const State& state, const Asked& asked, const In& params);

Refusal bad_parameters(const std::string& method);
Refusal not_open(const In& params);
Out range_of(const State& state, const Asked& asked, text::Span span);

// By what a text is.
Reply hover(State& state, const In& params, const workspace::Cancel& cancel);
Reply completion(State& state, const In& params, const workspace::Cancel& cancel);
Reply document_symbols(State& state, const In& params, const workspace::Cancel& cancel);
Reply folding(State& state, const In& params, const workspace::Cancel& cancel);
Reply selection(State& state, const In& params, const workspace::Cancel& cancel);
Reply semantic_tokens(State& state, const In& params, const workspace::Cancel& cancel);
Reply inlay_hints(State& state, const In& params, const workspace::Cancel& cancel);

// The picture.
Reply page(State& state, const In& params, const workspace::Cancel& cancel);
Reply page_view(State& state, const In& params, const workspace::Cancel& cancel);
Reply open_page(State& state, const In& params);

// By names.
Reply definition(State& state, const In& params, const workspace::Cancel& cancel);
Reply references(State& state, const In& params, const workspace::Cancel& cancel);
Reply prepare_rename(State& state, const In& params, const workspace::Cancel& cancel);
Reply rename(State& state, const In& params, const workspace::Cancel& cancel);

} // namespace norma::server
