#include "syntax/builder.hpp"

#include <algorithm>

#include "diag/catalogue.hpp"
#include "syntax/guess.hpp"
#include "syntax/parser.hpp"
#include "text/utf8.hpp"
#include "words/literal.hpp"
#include "words/vocabulary.hpp"

namespace norma::syntax {
namespace {

namespace catalogue = diag::catalogue;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_word_char(char c) { return is_letter(c) || (c >= '0' && c <= '9') || c == '_'; }

std::string_view word_at(const char* at, const char* end) {
  const char* stop = at;
  while (stop < end && is_word_char(*stop))
    ++stop;
  return {at, static_cast<std::size_t>(stop - at)};
}

/// Where the character that stands at `at` ends.
const char* character_end(const char* at, const char* end) {
  const char* stop = at + 1;
  while (stop < end && (static_cast<unsigned char>(*stop) & 0xc0u) == 0x80u)
    ++stop;
  return stop;
}

} // namespace

std::size_t unit_length(const char* at, const char* end) {
  if (at < end && *at == '%') return at + 1 < end && is_word_char(at[1]) ? 0 : 1;
  if (at >= end || !is_letter(*at)) return 0;
  const std::string_view word = word_at(at, end);
  return word.size() <= 8 && words::find_unit(word) != nullptr ? word.size() : 0;
}

std::size_t block_length(const char* at, const char* end) {
  const char* p = at;
  std::size_t depth = 0;
  while (p < end) {
    const char c = *p++;
    if (c == '{') {
      ++depth;
    } else if (c == '}') {
      if (--depth == 0) break;
    } else if (c == '#') {
      while (p < end && *p != '\n')
        ++p;
    } else if (c == '"') {
      while (p < end && *p != '"' && *p != '\n')
        p += (*p == '\\' && p + 1 < end) ? 2 : 1;
      if (p < end) ++p;
    }
  }
  return static_cast<std::size_t>(std::min(p, end) - at);
}

Builder::Builder(text::FileId file, std::string_view bytes, diag::Findings& findings)
    : file_(file), base_(bytes.data()), bytes_(bytes), findings_(findings) {
  nodes_.reserve(bytes.size() / 5 + 16);
  nodes_.push_back({NodeKind::file, 0, static_cast<std::uint32_t>(bytes.size()), 0});
}

std::vector<Node> Builder::finish() {
  nodes_[0].next = static_cast<std::uint32_t>(nodes_.size());
  return std::move(nodes_);
}

void Builder::begin_item(const char* at) {
  const int around = open_.empty() ? 0 : open_.back().level;
  const bool headless = !open_.empty() && open_.back().headless;
  open_.push_back({static_cast<std::uint32_t>(nodes_.size()), around, headless, headless});
  nodes_.push_back({NodeKind::item, offset(at), offset(at), 0});
}

void Builder::end_item(const char* at) {
  Node& node = nodes_[open_.back().node];
  // The statement ends with the last thing in it, not with the blanks behind it.
  node.end = offset(at);
  for (std::uint32_t i = open_.back().node + 1; i < nodes_.size(); i = nodes_[i].next)
    node.end = nodes_[i].end;
  node.next = static_cast<std::uint32_t>(nodes_.size());
  open_.pop_back();
}

text::Span Builder::heading(std::uint32_t item) const {
  text::Span span{file_, nodes_[item].begin, nodes_[item].begin};
  for (std::uint32_t i = item + 1; i < nodes_.size(); ++i) {
    const Node& n = nodes_[i];
    if (n.kind != NodeKind::word) break;
    span.end = n.end;
  }
  return span;
}

void Builder::open_block(const char* at) {
  ++depth_;
  const Open& item = open_.back();
  const text::Span head = heading(item.node);
  const std::string_view first = word_at(base_ + head.begin, base_ + head.end);
  const int own = words::structure_level(first);
  open_.push_back({static_cast<std::uint32_t>(nodes_.size()), own > 0 ? own : item.level,
                   item.headless, item.headless});
  nodes_.push_back({NodeKind::block, offset(at), offset(at), 0});
}

void Builder::close_block(const char* at) {
  --depth_;
  Node& node = nodes_[open_.back().node];
  node.end = offset(at);
  node.next = static_cast<std::uint32_t>(nodes_.size());
  open_.pop_back();
}

void Builder::miss_close(const char* at) {
  missed_close_ = offset(at);
  const text::Span brace =
      span(base_ + nodes_[open_.back().node].begin, base_ + nodes_[open_.back().node].begin + 1);
  const std::uint32_t item = open_[open_.size() - 2].node;
  const text::Span head = heading(item);
  if (!open_.back().bad && !ran_out_) {
    const auto name =
        fmt::format("`{}`", std::string_view(base_ + head.begin, head.end - head.begin));
    auto& d = findings_.add(diag::make(catalogue::block_not_closed, brace, name));
    const bool at_end = offset(at) >= bytes_.size();
    if (at_end) {
      d.with_help("write `}` where the block ends; the file ends before one");
      ran_out_ = true; // the blocks around it are open for the same reason
    } else {
      d.with_label(
          {file_, offset(at),
           offset(at) + static_cast<std::uint32_t>(word_at(at, base_ + bytes_.size()).size())},
          "a new part starts here");
      d.with_help("write `}` before this line");
    }
  }
  // The block ends behind the last thing in it.
  const std::uint32_t block = open_.back().node;
  std::uint32_t last = nodes_[block].begin + 1;
  for (std::uint32_t i = block + 1; i < nodes_.size(); i = nodes_[i].next)
    last = nodes_[i].end;
  close_block(base_ + last);
}

void Builder::junk(const char* begin, const char* end) {
  leaf(NodeKind::junk, begin, end);
  if (in_bad_item()) return;
  open_.back().bad = true;
  const std::string_view run(begin, static_cast<std::size_t>(end - begin));
  auto& d = findings_.add(diag::make(catalogue::unreadable, span(begin, end), run.substr(0, 60)));
  const Guess guess = guess_of_run(bytes_, static_cast<std::size_t>(begin - base_), run.size());
  if (!guess.help.empty()) d.with_help(guess.help);
  if (guess.has_edit) {
    d.with_fix(span(base_ + guess.begin, base_ + guess.end), guess.replacement, false);
  }
}

void Builder::comma_number(const char* begin, const char* end) {
  leaf(NodeKind::junk, begin, end);
  if (in_bad_item()) return;
  open_.back().bad = true;
  const std::string_view run(begin, static_cast<std::size_t>(end - begin));
  std::string as_point(run);
  std::string as_list;
  for (const char c : run)
    as_list += c == ',' ? std::string(", ") : std::string(1, c);
  const bool one_comma = std::count(run.begin(), run.end(), ',') == 1;
  std::replace(as_point.begin(), as_point.end(), ',', '.');
  auto& d =
      findings_.add(diag::make(catalogue::comma_for_point, span(begin, end), run.substr(0, 60)));
  if (run.find(':') != std::string_view::npos) {
    d.with_help(fmt::format("write `{}`", as_point)).with_fix(span(begin, end), as_point, false);
    return;
  }
  d.with_help(one_comma ? fmt::format("write `{}` for one number, `{}` for two", as_point, as_list)
                        : fmt::format("write `{}` for a list", as_list.substr(0, 80)));
  // `15,16` are two teeth; a number with two digits before its point and two behind is rare.
  const bool teeth = run.size() == 5 && run[2] == ',';
  if (one_comma) d.with_fix(span(begin, end), teeth ? as_list : as_point, false);
  if (!one_comma) d.with_fix(span(begin, end), as_list, false);
}

void Builder::unclosed_text(const char* begin, const char* end) {
  leaf(NodeKind::junk, begin, end);
  if (in_bad_item()) return;
  open_.back().bad = true;
  auto& d = findings_.add(diag::make(catalogue::string_not_closed, span(begin, end)));
  const char* last = end;
  while (last > begin + 1 && (last[-1] == ' ' || last[-1] == '\t' || last[-1] == '\r'))
    --last;
  if (last == begin + 1) {
    d.with_help("nothing stands behind it: the quote that opens the text may be missing");
  } else if (last[-1] != '\\') {
    d.with_fix(span(last, last), "\"", false);
    d.with_help("a text ends on the line where it starts: write `\"` behind its last word");
  } else {
    d.with_help("a text ends on the line where it starts");
  }
}

void Builder::bad_head(const char* at, const char* end) {
  // What stands there becomes a value of a statement without a word: its kind is told here, and
  // nothing else is said about the statement.
  if (in_bad_item()) return;
  open_.back().bad = true;
  open_.back().headless = true;
  const char c = *at;
  std::string what;
  const char* stop = character_end(at, end);
  if (c == '{') {
    what = "a brace";
  } else if (c == '"') {
    what = "a text";
  } else if (c >= '0' && c <= '9') {
    what = "a number";
  } else if (c == ',' || c == '=') {
    what = "a sign";
  } else {
    what = fmt::format("`{}`", std::string_view(at, static_cast<std::size_t>(stop - at)));
  }
  auto& d = findings_.add(diag::make(catalogue::no_word_first, span(at, stop), what));
  if (c == '{') d.with_help("a block belongs to a word before it, on the same line");
}

void Builder::stray_close(const char* begin, const char* end) {
  findings_.add(diag::make(catalogue::brace_closes_nothing, span(begin, end)))
      .with_help("delete it, or look above for a block that was closed too early");
}

void Builder::skipped_block(const char* begin, const char* end) {
  leaf(NodeKind::junk, begin, end);
  if (end == base_ + bytes_.size() && end[-1] != '}') ran_out_ = true;
  if (in_bad_item()) return;
  open_.back().bad = true;
  findings_.add(diag::make(catalogue::too_deep, span(begin, begin + 1), deepest_block))
      .with_note("what stands in this block was not read");
}

void Builder::no_break(const char* at) {
  if (missed_close_ == offset(at)) return; // told already, as the missing brace
  const char* end = base_ + bytes_.size();
  const std::string_view word = word_at(at, end);
  const char* stop = word.empty() ? character_end(at, end) : at + word.size();
  findings_.add(diag::make(catalogue::line_break_missing, span(at, stop)))
      .with_fix(span(at, at), "\n", true)
      .with_help("each statement stands on a line of its own");
}

void Builder::nothing_after_comma(const char* /*at*/) {
  if (in_bad_item()) return;
  open_.back().bad = true;
  // The comma itself is the last comma node; comments may stand behind it.
  for (std::size_t i = nodes_.size(); i-- > 0;) {
    if (nodes_[i].kind != NodeKind::comma) continue;
    const text::Span at{file_, nodes_[i].begin, nodes_[i].end};
    findings_.add(diag::make(catalogue::nothing_after_comma, at))
        .with_fix(at, "", true)
        .with_help("delete the comma, or write what belongs behind it");
    return;
  }
}

bool Builder::at_depth_limit() const { return depth_ >= deepest_block; }

bool Builder::closes_block(const char* at, const char* end) const {
  if (open_.empty()) return false;
  const int level = open_.back().level;
  if (level == 0 || !is_letter(*at)) return false;
  const int own = words::structure_level(word_at(at, end));
  return own > 0 && own <= level;
}

} // namespace norma::syntax
