#include "syntax/parser.hpp"

#include <tao/pegtl.hpp>

#include "diag/catalogue.hpp"
#include "syntax/builder.hpp"
#include "syntax/grammar.hpp"
#include "text/utf8.hpp"

namespace norma::syntax {
namespace {

namespace p = tao::pegtl;

template <typename Rule> struct Action : p::nothing<Rule> {};

template <NodeKind Kind> struct Leaf {
  template <typename Input> static void apply(const Input& in, Builder& builder) {
    builder.leaf(Kind, in.begin(), in.end());
  }
};
template <> struct Action<grammar::word> : Leaf<NodeKind::word> {};
template <> struct Action<grammar::number> : Leaf<NodeKind::number> {};
template <> struct Action<grammar::unit> : Leaf<NodeKind::unit> {};
template <> struct Action<grammar::ratio> : Leaf<NodeKind::ratio> {};
template <> struct Action<grammar::f_number> : Leaf<NodeKind::f_number> {};
template <> struct Action<grammar::date> : Leaf<NodeKind::date> {};
template <> struct Action<grammar::text> : Leaf<NodeKind::text> {};
template <> struct Action<grammar::comment> : Leaf<NodeKind::comment> {};
template <> struct Action<grammar::comma_sign> : Leaf<NodeKind::comma> {};
template <> struct Action<grammar::equals> : Leaf<NodeKind::equals> {};
template <> struct Action<grammar::plus_minus> : Leaf<NodeKind::plus_minus> {};

// Actions that hand the matched bytes, or the place alone, to a member of the builder.
template <void (Builder::*Member)(const char*, const char*)> struct Stretch {
  template <typename Input> static void apply(const Input& in, Builder& builder) {
    (builder.*Member)(in.begin(), in.end());
  }
};
template <void (Builder::*Member)(const char*)> struct Spot {
  template <typename Input> static void apply(const Input& in, Builder& builder) {
    (builder.*Member)(in.begin());
  }
};
template <> struct Action<grammar::junk> : Stretch<&Builder::junk> {};
template <> struct Action<grammar::comma_number> : Stretch<&Builder::comma_number> {};
template <> struct Action<grammar::comma_ratio> : Stretch<&Builder::comma_number> {};
template <> struct Action<grammar::unclosed> : Stretch<&Builder::unclosed_text> {};
template <> struct Action<grammar::stray_close> : Stretch<&Builder::stray_close> {};
template <> struct Action<grammar::skipped_block> : Stretch<&Builder::skipped_block> {};
template <> struct Action<grammar::item_begin> : Spot<&Builder::begin_item> {};
template <> struct Action<grammar::item_end> : Spot<&Builder::end_item> {};
template <> struct Action<grammar::open> : Spot<&Builder::open_block> {};
template <> struct Action<grammar::missing_close> : Spot<&Builder::miss_close> {};
template <> struct Action<grammar::no_break> : Spot<&Builder::no_break> {};
template <> struct Action<grammar::nothing_follows> : Spot<&Builder::nothing_after_comma> {};
template <> struct Action<grammar::close> {
  template <typename Input> static void apply(const Input& in, Builder& builder) {
    builder.close_block(in.end());
  }
};
template <> struct Action<grammar::bad_head> {
  template <typename Input> static void apply(const Input& in, Builder& builder) {
    builder.bad_head(in.begin(), in.input().end());
  }
};

Tree empty_tree(text::FileId id, std::size_t size) {
  return {id, {{NodeKind::file, 0, static_cast<std::uint32_t>(size), 1}}};
}

} // namespace

Tree parse(text::FileId id, std::string_view bytes, diag::Findings& findings) {
  if (const auto bad = text::first_unsound_byte(bytes)) {
    const auto at = static_cast<std::uint32_t>(*bad);
    const auto byte = static_cast<unsigned>(static_cast<unsigned char>(bytes[*bad]));
    findings
        .add(diag::make(diag::catalogue::not_text, {id, at, at + 1},
                        fmt::format("byte {} of the file is {:02x} (hexadecimal)", at + 1, byte)))
        .with_help("save the file as UTF-8 text; a protocol is no word processor's document");
    return empty_tree(id, bytes.size());
  }
  Builder builder(id, bytes, findings);
  p::memory_input<p::tracking_mode::lazy, p::eol::lf_crlf> in(bytes.data(), bytes.size(), "");
  p::parse<grammar::file, Action>(in, builder);
  return {id, builder.finish()};
}

} // namespace norma::syntax
