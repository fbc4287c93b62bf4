// The grammar as PEGTL rules. It follows grammar/norma.ebnf line by line and differs from it in
// three ways: each rule takes the blanks before it, not after it, so that 'expected here' points to
// the end of what was read; wherever the published grammar would fail, a rule of this one succeeds
// on what stands there and an action makes it a finding (junk, bad_head, unclosed, missing_close,
// no_break), so that a file always parses to its end; and a word that opens a view closes the view
// before it (closes_block). No rule that has an action is ever tried and given up again.
#pragma once

#include <tao/pegtl.hpp>

#include "syntax/builder.hpp"

namespace norma::syntax::grammar {

namespace p = tao::pegtl;

// Characters ----------------------------------------------------------------------------------
struct word_char : p::ranges<'a', 'z', 'A', 'Z', '0', '9', '_'> {};
struct untouched : p::not_at<word_char> {};
/// A number ends where nothing follows that could still belong to it: `1:2x`, `12-17` and `45°` are
/// each one unreadable run, not a number and something else.
struct number_end
    : p::not_at<p::sor<word_char, p::one<':', '.', '/', '-'>, p::ranges<'\x80', '\xff'>>> {};
struct blanks : p::star<p::blank> {};

// Tokens --------------------------------------------------------------------------------------
struct word : p::seq<p::ranges<'a', 'z', 'A', 'Z'>, p::star<word_char>> {};
struct digits : p::plus<p::digit> {};
struct decimal : p::seq<digits, p::opt<p::one<'.'>, digits>> {};

struct f_number : p::seq<p::string<'f', '/'>, decimal, untouched> {};
struct date : p::seq<p::rep<4, p::digit>, p::one<'-'>, p::rep<2, p::digit>, p::one<'-'>,
                     p::rep<2, p::digit>, untouched> {};
struct ratio : p::seq<decimal, p::one<':'>, decimal, untouched> {};

/// A unit of the closed list, nothing touching its end.
struct unit {
  using rule_t = unit;
  using subs_t = p::empty_list;
  template <typename ParseInput> static bool match(ParseInput& in) {
    const std::size_t length = unit_length(in.current(), in.end());
    if (length == 0) return false;
    in.bump_in_this_line(length);
    return true;
  }
};
struct fraction : p::seq<digits, p::one<'/'>, digits> {};
struct number
    : p::seq<p::opt<p::one<'+', '-'>>, p::sor<fraction, decimal>, p::sor<number_end, p::at<unit>>> {
};
struct measure : p::seq<number, p::opt<p::seq<blanks, unit>>> {};
/// `0,5`: one finding, never two numbers.
struct comma_number : p::seq<p::opt<p::one<'+', '-'>>, decimal,
                             p::plus<p::seq<p::one<','>, digits>>, p::star<word_char>> {};

/// `1:2,5`: a ratio of a number like that; `1:2,1:3` is a list.
struct comma_ratio : p::seq<decimal, p::one<':'>, digits, p::one<','>, digits,
                            p::not_at<p::one<':'>>, number_end> {};

struct text_char : p::sor<p::seq<p::one<'\\'>, p::not_at<p::eolf>, p::any>,
                          p::seq<p::not_at<p::sor<p::one<'"', '\\'>, p::eolf>>, p::any>> {};
struct text : p::seq<p::one<'"'>, p::star<text_char>, p::one<'"'>> {};
/// A text without its closing quote ends with its line, or before the brace that ends the line:
/// else a block would be lost with the quote.
struct line_opens : p::seq<p::one<'{'>, blanks, p::opt<p::one<'}'>, blanks>, p::eolf> {};
struct unclosed : p::seq<p::one<'"'>, p::until<p::at<p::sor<p::eolf, line_opens>>>> {};

struct comment : p::seq<p::one<'#'>, p::until<p::at<p::eolf>>> {};
struct equals : p::one<'='> {};
struct plus_minus : p::string<'+', '-'> {};
struct junk_char : p::sor<p::not_one<' ', '\t', '\n', '\r', '{', '}', ',', '#', '"'>,
                          p::seq<p::not_at<p::eol>, p::one<'\r'>>> {};
struct junk : p::plus<junk_char> {};

// A comma may be followed by new lines; then a value must come.
struct comma_sign : p::one<','> {};
struct nothing_follows : p::at<blanks, p::sor<p::one<'}'>, p::eof>> {};
struct comma
    : p::seq<comma_sign, p::star<p::sor<p::blank, p::eol, comment>>, p::opt<nothing_follows>> {};

struct value : p::sor<f_number, word,
                      p::seq<p::at<p::opt<p::one<'+', '-'>>, p::digit>,
                             p::sor<date, comma_ratio, ratio, comma_number>>,
                      plus_minus, measure, comma_number, comma, text, unclosed, equals, junk> {};

// Statements and blocks -------------------------------------------------------------------------
struct content;

struct at_depth_limit {
  using rule_t = at_depth_limit;
  using subs_t = p::empty_list;
  template <p::apply_mode A, p::rewind_mode M, template <typename...> class Action,
            template <typename...> class Control, typename ParseInput>
  static bool match(ParseInput& /*unused*/, Builder& builder) {
    return builder.at_depth_limit();
  }
};
/// Everything to the brace that closes this one, without recursion.
struct skipped_block {
  using rule_t = skipped_block;
  using subs_t = p::empty_list;
  template <typename ParseInput> static bool match(ParseInput& in) {
    in.bump(block_length(in.current(), in.end()));
    return true;
  }
};
/// A statement that starts here cannot stand in the block that is open.
struct closes_block {
  using rule_t = closes_block;
  using subs_t = p::empty_list;
  template <p::apply_mode A, p::rewind_mode M, template <typename...> class Action,
            template <typename...> class Control, typename ParseInput>
  static bool match(ParseInput& in, Builder& builder) {
    return builder.closes_block(in.current(), in.end());
  }
};

struct open : p::one<'{'> {};
struct close : p::one<'}'> {};
struct missing_close : p::success {};
struct block
    : p::seq<p::at<p::one<'{'>>, p::sor<p::seq<at_depth_limit, skipped_block>,
                                        p::seq<open, content, p::sor<close, missing_close>>>> {};

struct item_begin : p::success {};
struct item_end : p::success {};
struct bad_head : p::success {};
struct head : p::sor<p::at<word>, bad_head> {};
struct no_break : p::success {};
struct end : p::seq<blanks, p::opt<comment>, p::sor<p::eol, p::at<p::one<'}'>>, p::eof, no_break>> {
};
struct item : p::seq<item_begin, head, p::star<p::seq<blanks, value>>,
                     p::opt<p::seq<blanks, block>>, item_end, end> {};

struct space : p::plus<p::sor<p::blank, p::eol>> {};
struct content : p::star<p::not_at<p::sor<p::one<'}'>, p::eof>>,
                         p::sor<space, comment, p::seq<p::not_at<closes_block>, item>>> {};

struct stray_close : p::one<'}'> {};
struct bom : p::string<'\xef', '\xbb', '\xbf'> {};
struct file
    : p::seq<p::opt<bom>, p::star<p::not_at<p::eof>, p::sor<space, comment, stray_close, item>>,
             p::eof> {};

} // namespace norma::syntax::grammar
