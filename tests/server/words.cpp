// What is offered while one types: every word of every shipped protocol, at its place.
#include <doctest/doctest.h>

#include <algorithm>

#include "server/completion.hpp"
#include "server/cursor.hpp"
#include "server/hover.hpp"
#include "server/navigation.hpp"
#include "server/shape.hpp"
#include "support/shipped.hpp"
#include "syntax/parser.hpp"

namespace norma::test {
namespace {

using syntax::NodeKind;

struct Read {
  std::unique_ptr<text::Source> source;
  syntax::Tree tree;
};

Read read(const std::filesystem::path& file) {
  Read out{std::make_unique<text::Source>(file.string(), read_file(file)), {}};
  diag::Findings findings;
  out.tree = syntax::parse(text::FileId{0}, out.source->bytes(), findings);
  REQUIRE(findings.empty());
  return out;
}

} // namespace

TEST_CASE("every word of every shipped protocol is offered where it stands") {
  std::size_t offered = 0;
  for (const auto& file : shipped_protocols()) {
    CAPTURE(file.filename().string());
    const Read text = read(file);
    const workspace::Workspace space(std::make_shared<text::DiskFiles>());
    const auto chain =
        server::chain_of(space.snapshot(), file.string(), (root() / "protocols").string());
    REQUIRE_FALSE(chain.empty());
    const auto names =
        server::names_given_in(space.snapshot(), file.string(), (root() / "protocols").string());
    std::vector<std::pair<std::string, text::Span>> given;
    for (const auto& one : chain) {
      for (const server::Mention& m : one.outline.mentions) {
        if (m.gives) given.emplace_back(m.name, m.span);
      }
    }
    REQUIRE(names.size() == given.size());
    for (std::size_t i = 0; i < names.size(); ++i)
      CHECK(std::pair(names[i].name, names[i].span) == given[i]);
    const auto known = [&] { return names; };
    for (const syntax::Node& node : text.tree.nodes()) {
      if (node.kind != NodeKind::word) continue;
      const std::string_view word = text.source->text({text::FileId{0}, node.begin, node.end});
      const bool new_name = std::any_of(
          chain.front().outline.mentions.begin(), chain.front().outline.mentions.end(),
          [&](const server::Mention& m) { return m.gives && m.span.begin == node.begin; });
      const server::Spot spot = server::spot_at(text.tree, *text.source, node.begin);
      REQUIRE(spot.item);
      const auto tokens = server::tokens_of(*spot.item, *text.source);
      const std::string_view first = tokens.front().text;
      const bool name_of_protocol = (first == "protocol" || first == "builds") &&
                                    word != "protocol" && word != "builds" && word != "on" &&
                                    word != "from";
      const bool to_of_teeth = word == "to" || word == "x"; // between two numbers
      const bool also = word == "also" || word == "no";     // before any word
      if (new_name || name_of_protocol || to_of_teeth || also) continue;
      const auto found = server::completions_at(text.tree, *text.source, node.begin, known).list;
      const std::string_view rest = text.source->bytes().substr(node.begin);
      const bool is_there = std::any_of(found.begin(), found.end(), [&](const auto& one) {
        return rest.starts_with(one.insert);
      });
      const auto place = text.source->place(node.begin);
      CAPTURE(place.line);
      CHECK_MESSAGE(is_there, std::string(word));
      // Each comes with an example.
      for (const auto& one : found)
        CHECK(one.markdown.find("```norma\n") != std::string::npos);
      ++offered;
    }
  }
  CHECK(offered > 2000);
}

TEST_CASE("what is around a place grows outwards, and what is told of words lies in order") {
  for (const auto& file : shipped_protocols()) {
    CAPTURE(file.filename().string());
    const Read text = read(file);
    for (std::size_t at = 0; at <= text.source->bytes().size(); at += 7) {
      const auto spans = server::around(text.tree, *text.source, at);
      REQUIRE_FALSE(spans.empty());
      for (std::size_t i = 0; i < spans.size(); ++i) {
        CHECK(spans[i].begin <= at);
        CHECK(at <= spans[i].end);
        if (i == 0) continue;
        CHECK(spans[i].begin <= spans[i - 1].begin);
        CHECK(spans[i - 1].end <= spans[i].end);
      }
    }
    const auto shades = server::shades_of(text.tree, *text.source);
    for (std::size_t i = 1; i < shades.size(); ++i)
      CHECK(shades[i - 1].span.end <= shades[i].span.begin);
  }
}

} // namespace norma::test
