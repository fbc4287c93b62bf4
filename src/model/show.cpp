#include "model/show.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <tuple>

#include "model/fingerprint.hpp"
#include "model/views.hpp"
#include "model/write.hpp"
#include "syntax/tidy.hpp"
#include "text/utf8.hpp"

namespace norma::model {
namespace {

/// Where comments start, if the line leaves room.
constexpr std::size_t origin_column = 64;

std::string exception_text(const Exception& e) {
  const std::string where = !e.series.empty() ? " in series " + e.series
                            : !e.view.empty() ? " in " + e.view
                                              : std::string();
  std::string more;
  for (const std::string& kit : e.kits)
    more += " with " + quoted(kit);
  if (e.until) more += " until " + words::to_text(*e.until);
  return fmt::format("accept {}{}{} because {}", e.finding, where, more, quoted(e.because));
}

void sort_by_word(std::vector<Statement>& all) {
  std::stable_sort(all.begin(), all.end(), [](const Statement& a, const Statement& b) {
    return std::tie(a.word, a.key) < std::tie(b.word, b.key);
  });
}

/// What the file itself says, in one order; what it builds on is not there.
class Written {
 public:
  explicit Written(const Declared& declared) : declared_(declared) {}

  std::string write() {
    out_ =
        fmt::format("norma 1\n\n# {}, as it is written: what it builds on could not be read.\n\n",
                    declared_.name);
    line(0, fmt::format("protocol {} {} {{", declared_.name, quoted(declared_.title)));
    const Base& base = *declared_.base;
    std::string way = fmt::format("{} from {}", base.name, quoted(base.path));
    if (!base.as_of.empty()) way += " as of " + quoted(base.as_of);
    line(1, syntax::laid_out("builds on", way));
    statements(1, declared_.header);
    if (has_any(declared_.every_mouth)) block("every mouth view", declared_.every_mouth);
    if (has_any(declared_.every_face)) block("every face view", declared_.every_face);
    for (const DeclaredView& v : declared_.views)
      block(to_text(v.heading), v.block);
    for (const ViewChange& c : declared_.changes)
      block(to_text(c.heading), c.block);
    std::vector<std::string> rest;
    for (const ViewDrop& d : declared_.drops)
      rest.push_back(to_text(d.statement));
    for (const std::vector<DeclaredSeries>* all : {&declared_.series_changes, &declared_.series}) {
      for (const DeclaredSeries& s : *all)
        rest.push_back(to_text(s.statement));
    }
    for (const Exception& e : declared_.exceptions)
      rest.push_back(exception_text(e));
    if (!rest.empty()) out_ += '\n';
    for (const std::string& text : rest)
      line(1, text);
    out_ += "}\n";
    return std::move(out_);
  }

 private:
  static bool has_any(const Block& block) { return !block.said.empty() || !block.groups.empty(); }

  void line(std::size_t depth, const std::string& text) {
    out_ += std::string(depth * syntax::indent_step, ' ') + text + "\n";
  }

  void block(const std::string& heading, const Block& block) {
    out_ += '\n';
    line(1, heading + " {");
    statements(2, block.said);
    for (const GroupBlock& g : block.groups) {
      line(2, fmt::format("for {} {{", to_text(g.group)));
      statements(3, g.said);
      line(2, "}");
    }
    line(1, "}");
  }

  void statements(std::size_t depth, std::vector<Statement> all) {
    sort_by_word(all);
    for (const Statement& s : all) {
      const bool no = s.mention == Mention::no;
      std::string head = no ? "no " : s.mention == Mention::also ? "also " : "";
      head += no && !s.word->absence.empty() ? s.word->absence : s.word->name;
      if (!s.key.empty()) head += fmt::format(" {}", s.key);
      line(depth, syntax::laid_out(head, values_text(s)));
    }
  }

  const Declared& declared_;
  std::string out_;
};

class Show {
 public:
  /// `source_of` is null where no line says where it comes from.
  Show(const Declared& declared, const std::optional<Group>& group, const SourceOf* source_of,
       diag::Findings& findings)
      : declared_(declared), group_(group), source_of_(source_of),
        views_(declared, group, findings) {}

  std::string write() {
    out_ = "norma 1\n\n";
    out_ += fmt::format("# {}, as it stands when all is resolved{}.\n", declared_.name,
                        group_ ? ", for " + to_text(*group_) : "");
    if (source_of_ != nullptr) {
      const Fingerprint f = fingerprint(declared_, group_);
      out_ += fmt::format("# fingerprint of the pictures:    {}\n", f.pictures);
      out_ += fmt::format("# fingerprint of everything:      {}\n", f.everything);
    }
    out_ += '\n';
    line(0, fmt::format("protocol {} {} {{", declared_.name, quoted(declared_.title)),
         place(declared_.heading));
    header();
    for (const DeclaredView& v : declared_.views)
      view(v);
    series();
    out_ += "}\n";
    return std::move(out_);
  }

 private:
  void line(std::size_t depth, const std::string& text, const std::string& origin) {
    std::string out(depth * syntax::indent_step, ' ');
    out += text;
    if (!origin.empty()) {
      const std::size_t used = text::display_width(out);
      out += std::string(used + 2 > origin_column ? 2 : origin_column - used, ' ') + "# " + origin;
    }
    out_ += out + "\n";
  }

  [[nodiscard]] std::string place(text::Span span) const {
    if (source_of_ == nullptr) return {};
    const text::Source& source = (*source_of_)(span.file);
    return fmt::format("{}:{}", text::printable(source.name()), source.place(span.begin).line);
  }

  void statements(std::size_t depth, std::vector<Statement> all, const DeclaredView* view) {
    sort_by_word(all);
    for (const Statement& s : all) {
      std::string head(s.word->name);
      if (!s.key.empty()) head += fmt::format(" {}", s.key);
      std::string origin = place(s.span);
      if (!origin.empty() && s.also.known()) origin += " and " + place(s.also);
      if (!origin.empty() && view != nullptr) origin += way(s, *view);
      if (s.broken) {
        line(depth, "# " + head + " could not be read", origin);
        continue;
      }
      line(depth, syntax::laid_out(head, values_text(s)), origin);
    }
  }

  /// How a statement came into the view, where it does not stand in it.
  [[nodiscard]] std::string way(const Statement& s, const DeclaredView& view) const {
    const auto in = [&](const std::vector<Statement>& said) {
      return std::any_of(said.begin(), said.end(),
                         [&](const Statement& o) { return o.span == s.span; });
    };
    const Block& every =
        view.kind == ViewKind::mouth ? declared_.every_mouth : declared_.every_face;
    std::string out;
    if (in(every.said)) {
      out += view.kind == ViewKind::mouth ? ", every mouth view" : ", every face view";
    }
    for (const Block* block : {&every, &view.block}) {
      for (const GroupBlock& g : block->groups) {
        if (in(g.said)) out += ", for " + to_text(g.group);
      }
    }
    const std::string source = name_in(view.heading, "same");
    if (!source.empty() && !in(view.block.said)) {
      const std::string_view crossing = view.heading.symbol("crossing");
      out += ", as view " + source;
      if (!crossing.empty() && s.derived) out += fmt::format(" for the {}", crossing);
    }
    return out;
  }

  void header() {
    std::vector<Statement> all;
    for (const Statement& s : declared_.header) {
      if (s.word->name != "for" || !group_) all.push_back(s);
    }
    statements(1, std::move(all), nullptr);
    if (!group_) return;
    const auto said = std::find_if(declared_.header.begin(), declared_.header.end(),
                                   [](const Statement& s) { return s.word->name == "for"; });
    line(1, syntax::laid_out("for", to_text(*group_)),
         source_of_ == nullptr            ? ""
         : said == declared_.header.end() ? "a block of a view"
                                          : place(said->span));
  }

  void view(const DeclaredView& v) {
    out_ += '\n';
    line(1,
         fmt::format("{} {} {} {{", v.kind == ViewKind::mouth ? "view" : "face view", v.name,
                     quoted(v.title)),
         place(v.heading.span));
    const auto* all = v.heading.broken ? nullptr : views_.statements_of(v.name);
    if (all != nullptr) statements(2, *all, &v);
    line(1, "}", "");
  }

  void series() {
    if (!declared_.series.empty()) out_ += '\n';
    for (const DeclaredSeries& s : declared_.series) {
      if (s.statement.broken) continue;
      line(1, fmt::format("series {}", values_text(s.statement)), place(s.statement.span));
    }
    for (const Exception& e : declared_.exceptions)
      line(1, exception_text(e), place(e.span));
  }

  const Declared& declared_;
  const std::optional<Group>& group_;
  const SourceOf* source_of_;
  Views views_;
  std::string out_;
};

} // namespace

std::string shown(const Declared& declared, const std::optional<Group>& group,
                  const SourceOf& source_of, diag::Findings& findings) {
  return Show(declared, group, &source_of, findings).write();
}

std::string shown_plainly(const Declared& declared, const std::optional<Group>& group,
                          diag::Findings& findings) {
  return is_on_its_base(declared) ? Show(declared, group, nullptr, findings).write()
                                  : Written(declared).write();
}

bool is_on_its_base(const Declared& declared) { return !declared.base || !declared.bases.empty(); }

std::string unread_plainly(const text::Source& source) {
  std::string_view bytes = source.bytes();
  constexpr std::size_t bom = 3;
  if (text::starts_with_bom(bytes)) bytes.remove_prefix(bom);
  std::string out = "# This could not be read whole; its own text:\n\n";
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const bool of_line_end = bytes[i] == '\r' && i + 1 < bytes.size() && bytes[i + 1] == '\n';
    if (!of_line_end) out += bytes[i];
  }
  if (out.back() != '\n') out += '\n';
  return out;
}

} // namespace norma::model
