#include "work.hpp"

#include <doctest/doctest.h>

#include "emit/act_words.hpp"
#include "wording/wording.hpp"

namespace norma::test {

std::string changed(std::string text, std::string_view from, std::string_view to) {
  const std::size_t at = text.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, "not in the text: ", std::string(from));
  text.replace(at, from.size(), to);
  return text;
}

std::string said(const plan::Facts& facts, const plan::FactRow& row) {
  return wording::english().text(facts.value(row));
}

std::string said(const plan::Act& act) {
  return emit::who_text(act.who, wording::english()) + ": " +
         emit::act_text(act, wording::english());
}

} // namespace norma::test
