#include "model/resolve.hpp"

#include <algorithm>
#include <unordered_map>

#include "diag/catalogue.hpp"
#include "model/content.hpp"
#include "model/lower.hpp"
#include "model/merge.hpp"
#include "model/teeth_of_patients.hpp"
#include "model/views.hpp"
#include "physics/quantity_text.hpp"
#include "text/suggest.hpp"
#include "words/teeth.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;

class Resolver {
 public:
  Resolver(const Declared& declared, const std::optional<Group>& group, diag::Findings& findings)
      : declared_(declared), names_(declared.by_name()), views_(declared, group, findings),
        findings_(findings) {
    protocol_.file = declared.file;
    protocol_.name = declared.name;
    protocol_.title = declared.title;
    protocol_.heading = declared.heading;
    const std::vector<Statement> header = finished(declared.header, findings);
    lower_protocol(header, protocol_);
    write_content(header, protocol_.header);
    protocol_.edits = declared.edits;
    if (group && !protocol_.group.broken()) {
      const text::Span said = protocol_.group.known() ? protocol_.group.span() : protocol_.heading;
      protocol_.group = {*group, said};
    }
  }

  /// `done`: what was declared, where each view's statements are let go of.
  Protocol resolve(Declared* done = nullptr) {
    protocol_.views.reserve(declared_.views.size());
    protocol_.contents.reserve(declared_.views.size());
    for (std::size_t i = 0; i < declared_.views.size(); ++i) {
      const DeclaredView& view = declared_.views[i];
      View typed;
      typed.name = view.name;
      typed.title = view.title.empty() ? view.name : view.title;
      typed.kind = view.kind;
      typed.heading = view.heading.span;
      typed.whole = view.block.whole;
      typed.made_from = name_in(view.heading, "same");
      typed.crossing = view.heading.symbol("crossing");
      const std::vector<Statement>* statements =
          view.heading.broken ? nullptr : views_.statements_of(view.name);
      if (statements != nullptr) {
        lower_view(*statements, typed);
        typed.content = content_of(*statements);
        check_texts(view, *statements);
        check_ranges(view, *statements);
        check_filled_in(*statements, typed);
      }
      protocol_.views.push_back(std::move(typed));
      // What others are made from is kept merged; only one that was not read is asked for again.
      if (done != nullptr && !view.heading.broken) done->views[i].block = {};
    }
    read_series();
    check_exposure();
    check_else_views();
    check_exceptions();
    check_teeth_of_patients(protocol_, findings_);
    return std::move(protocol_);
  }

 private:
  int content_of(const std::vector<Statement>& statements) {
    buffer_.clear();
    write_content(statements, buffer_);
    const auto known = contents_.find(buffer_);
    if (known != contents_.end()) return known->second;
    const auto index = static_cast<int>(protocol_.contents.size());
    contents_.emplace(protocol_.contents.emplace_back(buffer_), index);
    return index;
  }

  /// A finding about one view of the protocol.
  [[nodiscard]] diag::Diagnostic about(const std::string& view, diag::Diagnostic d) const {
    const auto& all = declared_.views;
    const auto at =
        std::find_if(all.begin(), all.end(), [&](const DeclaredView& v) { return v.name == view; });
    d.about = {diag::Subject{}.of_view(static_cast<int>(at - all.begin()))};
    return d;
  }

  /// Texts are never rewritten: one that names a side or a tooth is wrong on the other.
  void check_texts(const DeclaredView& view, const std::vector<Statement>& statements) {
    const std::string_view crossing = view.heading.symbol("crossing");
    if (crossing.empty()) return;
    const bool side = crossing == "other side";
    for (const Statement& s : statements) {
      if (!s.derived) continue;
      for (const Part& part : s.parts) {
        for (const words::Value& v : part.values) {
          const auto* quoted = v.as<words::Quoted>();
          if (quoted == nullptr) continue;
          const std::string word = said_of_one_place(quoted->written, side);
          if (word.empty()) continue;
          findings_.add(about(view.name, diag::make(catalogue::side_in_text, s.place(v), word)))
              .with_label(view.heading.span, "into this view")
              .with_help(fmt::format("write `{}` with its own text in view `{}`", s.word->name,
                                     view.name));
        }
      }
    }
  }

  /// Norma reads `f/32 to f/22` the other way round, and says so.
  void check_ranges(const DeclaredView& view, const std::vector<Statement>& statements) {
    for (const Statement& s : statements) {
      const Part* range = s.broken || s.word->name != "aperture" ? nullptr : s.part("range");
      if (range == nullptr || range->values.size() < 2) continue;
      const auto* from = range->values[0].as<words::FNumberLiteral>();
      const auto* to = range->values[1].as<words::FNumberLiteral>();
      if (from->number.value() <= to->number.value()) continue;
      const text::Span first = s.place(range->values[0]);
      const text::Span both = text::join(first, s.place(range->values[1]));
      const auto mark = [](const words::FNumberLiteral& n) {
        return physics::to_text(physics::exact_f_number(n.number.value()));
      };
      const std::string written = fmt::format("{} to {}", mark(*from), mark(*to));
      const std::string turned = fmt::format("{} to {}", mark(*to), mark(*from));
      findings_.add(about(view.name, diag::make(catalogue::range_backwards, both, written)))
          .with_fix(both, turned, false)
          .with_help(fmt::format("norma reads it as `{}`", turned));
    }
  }

  /// What of a text is wrong on the other side, or in the other jaw: a word, or the number of a
  /// tooth. "" where nothing is.
  static std::string said_of_one_place(std::string_view text, bool side) {
    for (const char* word : {"left", "right"}) {
      if (side && holds_word(text, word)) return word;
    }
    for (const char* word : {"upper", "lower"}) {
      if (!side && holds_word(text, word)) return word;
    }
    const auto tooth = words::tooth_in_prose(text);
    return tooth ? words::teeth_text({*tooth}) : "";
  }

  static bool holds_word(std::string_view text, std::string_view word) {
    const auto letter = [&](std::size_t i) {
      return i < text.size() &&
             ((text[i] >= 'a' && text[i] <= 'z') || (text[i] >= 'A' && text[i] <= 'Z'));
    };
    const auto same = [](char a, char b) { return (a | 0x20) == b; }; // `word` is in small letters
    for (std::size_t at = 0; at + word.size() <= text.size(); ++at) {
      if (!std::equal(word.begin(), word.end(), text.begin() + static_cast<std::ptrdiff_t>(at),
                      [&](char w, char t) { return same(t, w); }))
        continue;
      if ((at == 0 || !letter(at - 1)) && !letter(at + word.size())) return true;
    }
    return false;
  }

  /// `that tooth` needs a `tooth named at the chair`; the same for a site.
  void check_filled_in(const std::vector<Statement>& statements, const View& view) {
    for (const Statement& s : statements) {
      for (const Part& part : s.parts) {
        for (const words::Value& v : part.values) {
          const bool tooth = v.symbol().ends_with("that tooth");
          const bool site = v.symbol().ends_with("that site");
          if ((tooth && !view.tooth_filled_in) || (site && !view.site_filled_in)) {
            const std::string_view what = tooth ? "tooth" : "site";
            findings_
                .add(about(view.name,
                           diag::make(catalogue::nothing_filled_in, s.place(v), what, what)))
                .with_help(fmt::format("write `{} named at the chair` in the view", what));
            return;
          }
        }
        // `facial that tooth` keeps only the surface as its value.
        const bool plain_tooth = part.clause->slot == "that";
        if (plain_tooth && !view.tooth_filled_in) {
          findings_
              .add(about(view.name,
                         diag::make(catalogue::nothing_filled_in, s.place(part), "tooth", "tooth")))
              .with_help("write `tooth named at the chair` in the view");
          return;
        }
      }
    }
  }

  void read_series() {
    for (const DeclaredSeries& declared : declared_.series) {
      const Statement& s = declared.statement;
      if (s.broken) continue;
      Series series;
      series.span = s.span;
      series.name = declared.name;
      for (const Part& part : s.parts) {
        const std::size_t at = part.clause->slot == "first" ? 1 : 0;
        const words::Value& view = part.values[at];
        const std::string_view name = view.as<words::Name>()->text;
        if (names_.count(name) == 0) {
          report_unknown_view(declared_, s.place(view), name, findings_);
          series.whole = false;
          continue;
        }
        const std::string_view slot = part.clause->slot;
        if (slot == "laid out" || slot == "next row") series.rows.emplace_back();
        if (!series.rows.empty()) { // what follows lies in this row
          series.rows.back().emplace_back(name);
          continue;
        }
        series.entries.push_back({std::string(name), part.values.size() > at + 1, s.place(view)});
      }
      const auto twin = std::find_if(protocol_.series.begin(), protocol_.series.end(),
                                     [&](const Series& o) { return o.name == series.name; });
      if (twin != protocol_.series.end()) {
        findings_.add(diag::make(catalogue::name_taken, s.span, series.name))
            .with_label(twin->span, "by this series");
        continue;
      }
      protocol_.series.push_back(std::move(series));
    }
  }

  /// What a view is as bright as, or is replaced by, leads on to another view: such ways must end.
  /// `next` gives a view's next one, "" where the way ends; a view that names itself ends it.
  template <class Next, class Report> void check_ways(Next next, Report report) {
    enum class Mark { fresh, on_the_way, done };
    std::unordered_map<std::string_view, Mark> marks;
    for (const View& start : protocol_.views) {
      std::vector<const View*> way;
      const View* at = &start;
      while (at != nullptr && marks[at->name] == Mark::fresh) {
        marks[at->name] = Mark::on_the_way;
        way.push_back(at);
        const std::string_view name = next(*at);
        at = name.empty() || name == at->name ? nullptr : typed(name);
      }
      if (at != nullptr && marks[at->name] == Mark::on_the_way) report(*at, *way.back());
      for (const View* v : way)
        marks[v->name] = Mark::done;
    }
  }
  const View* typed(std::string_view name) {
    if (typed_.empty()) {
      for (const View& v : protocol_.views)
        typed_.emplace(v.name, &v);
    }
    const auto found = typed_.find(name);
    return found == typed_.end() ? nullptr : found->second;
  }

  void check_exposure() {
    for (const View& view : protocol_.views) {
      if (!view.exposure.known() || view.exposure->as_view.empty()) continue;
      if (names_.count(view.exposure->as_view) == 0) {
        // The same statement comes to many views from `every mouth view`: one finding is enough.
        report_unknown_view(declared_, view.exposure->as_view_span, view.exposure->as_view,
                            findings_);
      }
    }
    check_ways(
        [](const View& v) {
          return v.exposure.known() ? std::string_view(v.exposure->as_view) : std::string_view();
        },
        [&](const View& first, const View& last) {
          findings_.add(
              diag::make(catalogue::goes_in_circles, first.exposure.span(),
                         fmt::format("exposure of {} as view {}", first.name, last.name)));
        });
  }

  /// `or else view` names another view, and the way ends.
  void check_else_views() {
    for (const View& view : protocol_.views) {
      if (!view.or_else_view.known()) continue;
      const bool itself = view.or_else_view.get() == view.name;
      if (itself) {
        findings_.add(diag::make(catalogue::goes_in_circles, view.or_else_view.span(),
                                 fmt::format("view {}, or else itself", view.name)));
      } else if (names_.count(view.or_else_view.get()) == 0) {
        report_unknown_view(declared_, view.or_else_view.span(), view.or_else_view.get(),
                            findings_);
      }
    }
    check_ways(
        [](const View& v) {
          return v.or_else_view.known() ? std::string_view(v.or_else_view.get())
                                        : std::string_view();
        },
        [&](const View& first, const View& last) {
          findings_.add(diag::make(
              catalogue::goes_in_circles, first.or_else_view.span(),
              fmt::format("view {}, or else {}, or else {}", first.name, last.name, first.name)));
        });
  }

  void check_exceptions() {
    for (const Exception& e : declared_.exceptions) {
      if (!e.view.empty() && names_.count(e.view) == 0) {
        report_unknown_view(declared_, e.place_span, e.view, findings_);
      } else if (!e.series.empty() && !has_series(e.series)) {
        report_unknown_series(e);
      } else {
        protocol_.exceptions.push_back(e);
      }
    }
  }

  [[nodiscard]] bool has_series(std::string_view name) const {
    const auto& all = declared_.series;
    return std::any_of(all.begin(), all.end(),
                       [&](const DeclaredSeries& s) { return s.name == name; });
  }

  void report_unknown_series(const Exception& e) {
    std::vector<std::string_view> names;
    for (const DeclaredSeries& s : declared_.series)
      names.push_back(s.name);
    auto& d = findings_.add(diag::make(catalogue::unknown_series, e.place_span, e.series));
    if (const auto near = text::nearest(e.series, names))
      d.with_fix(e.place_span, std::string(*near), false)
          .with_help(fmt::format("did you mean `{}`?", *near));
    else
      d.with_help("write the name of a series of this protocol, or of the one it builds on");
  }

  const Declared& declared_;
  std::unordered_map<std::string_view, const DeclaredView*> names_;
  Views views_;
  std::string buffer_;
  std::unordered_map<std::string_view, int> contents_; // of protocol_.contents, which stay in place
  diag::Findings& findings_;
  Protocol protocol_;
  std::unordered_map<std::string_view, const View*> typed_; // once all views are there
};

} // namespace

std::vector<std::optional<Group>> groups_of(const Declared& declared) {
  std::vector<std::optional<Group>> out;
  for (const Statement& s : declared.header) {
    if (s.word->name == "for" && !s.broken) out.emplace_back(group_of(s));
  }
  if (out.empty()) out.emplace_back(std::nullopt);
  std::vector<Group> named;
  const auto add = [&](const Block& block) {
    for (const GroupBlock& g : block.groups) {
      if (std::find(named.begin(), named.end(), g.group) == named.end()) named.push_back(g.group);
    }
  };
  add(declared.every_mouth);
  add(declared.every_face);
  for (const DeclaredView& v : declared.views)
    add(v.block);
  // A block for all children is laid where a narrower group is meant; it makes no group of its own
  // beside that one.
  for (const Group& g : named) {
    const bool covered =
        std::any_of(named.begin(), named.end(),
                    [&](const Group& o) { return !(o == g) && o.within(g); }) ||
        std::any_of(out.begin(), out.end(), [&](const auto& o) { return o && o->within(g); });
    if (!covered) out.emplace_back(g);
  }
  return out;
}

Protocol resolve(const Declared& declared, const std::optional<Group>& group,
                 diag::Findings& findings) {
  return Resolver(declared, group, findings).resolve();
}

Protocol resolve(Declared&& declared, const std::optional<Group>& group, diag::Findings& findings) {
  return Resolver(declared, group, findings).resolve(&declared);
}

} // namespace norma::model
