#include "model/extend.hpp"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

#include "diag/catalogue.hpp"
#include "model/merge.hpp"
#include "model/views.hpp"
#include "model/write.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;

/// These say something about a protocol as a document: the base's own are not taken over.
bool is_of_the_document(const Statement& s) {
  return s.word->name == "revision" || s.word->name == "adopted" || s.word->name == "review by";
}

/// What stands behind `because` of an edit.
std::string reason_in(const Statement& s) {
  const Part* part = s.part("name");
  const auto* text = part->values.size() < 2 ? nullptr : part->values[1].as<words::Quoted>();
  return text == nullptr ? std::string() : text->text();
}

Block laid(const Block& base, const Block& over) {
  Block out{merged(base.said, over.said), base.groups, base.whole};
  for (const GroupBlock& g : over.groups) {
    const auto there = std::find_if(out.groups.begin(), out.groups.end(),
                                    [&](const GroupBlock& o) { return o.group == g.group; });
    if (there == out.groups.end()) {
      out.groups.push_back(g);
    } else {
      there->said = merged(there->said, g.said);
    }
  }
  return out;
}

class Extension {
 public:
  Extension(const Declared& base, Declared own, diag::Findings& findings)
      : base_(base), base_views_(base.by_name()), own_(std::move(own)), findings_(findings) {}

  Declared make() {
    Declared out = own_;
    out.changes.clear();
    out.drops.clear();
    out.series_changes.clear();
    std::vector<Statement> header;
    for (const Statement& s : base_.header) {
      if (!is_of_the_document(s)) header.push_back(s);
    }
    out.header = merged(header, own_.header);
    out.every_mouth = laid(base_.every_mouth, own_.every_mouth);
    out.every_face = laid(base_.every_face, own_.every_face);
    out.views = base_.views;
    out.edits = base_.edits;
    change_views(out);
    add_views(out);
    series(out);
    drop_views(out);
    out.exceptions = base_.exceptions;
    out.exceptions.insert(out.exceptions.end(), own_.exceptions.begin(), own_.exceptions.end());
    out.sound = own_.sound && base_.sound;
    out.bases = base_.bases;
    out.bases.emplace_back(base_.file, base_.name);
    check_fixed(out);
    return out;
  }

 private:
  void change_views(Declared& out) {
    std::unordered_map<std::string_view, text::Span> done;
    std::unordered_map<std::string_view, std::size_t> places;
    for (std::size_t i = 0; i < out.views.size(); ++i)
      places.emplace(base_.views[i].name, i);
    for (const ViewChange& change : own_.changes) {
      const auto at = places.find(change.name);
      const text::Span name = change.heading.place("name");
      if (at == places.end()) {
        report_unknown_view(base_, name, change.name, findings_);
        continue;
      }
      const auto [twin, is_new] = done.emplace(change.name, change.heading.span);
      if (!is_new) {
        findings_.add(diag::make(catalogue::said_twice, name, "change view " + change.name))
            .with_label(twin->second, "said here first")
            .with_help("put all of it into one block");
        continue;
      }
      DeclaredView* view = &out.views[at->second];
      check_places(change, view->kind);
      view->block = laid(view->block, change.block);
      out.edits.push_back(
          {Edit::What::change_view, change.name, reason_in(change.heading), change.block.whole});
    }
  }

  /// A change is read with the words of both kinds of view.
  void check_places(const ViewChange& change, ViewKind kind) {
    const unsigned place = kind == ViewKind::mouth ? words::in_view : words::in_face;
    const auto check = [&](const std::vector<Statement>& said) {
      for (const Statement& s : said) {
        if ((s.word->places & place) != 0) continue;
        findings_.add(
            diag::make(catalogue::misplaced_word, s.head, s.word->name,
                       kind == ViewKind::mouth ? "a view of the mouth" : "a view of the face"));
      }
    };
    check(change.block.said);
    for (const GroupBlock& g : change.block.groups)
      check(g.said);
  }

  void add_views(Declared& out) {
    for (const DeclaredView& view : own_.views) {
      if (const auto found = base_views_.find(view.name); found != base_views_.end()) {
        const DeclaredView* twin = found->second;
        findings_.add(diag::make(catalogue::name_taken, view.heading.place("name"), view.name))
            .with_label(twin->heading.place("name"), "by this view of the base")
            .with_help(fmt::format("to change it write `change view {} because \"...\"`; else give "
                                   "yours another name",
                                   view.name));
        continue;
      }
      out.views.push_back(view);
    }
  }

  void series(Declared& out) {
    out.series = base_.series;
    for (const DeclaredSeries& change : own_.series_changes) {
      const auto there =
          std::find_if(out.series.begin(), out.series.end(),
                       [&](const DeclaredSeries& s) { return s.name == change.name; });
      if (there == out.series.end()) {
        findings_
            .add(diag::make(catalogue::edit_without_base, change.statement.head, "change series",
                            "the base has no such series"))
            .with_help(
                fmt::format("the base has no series `{0}`: write `series {0} = ...`", change.name));
        continue;
      }
      there->statement = change.statement;
      out.edits.push_back({Edit::What::change_series, change.name, {}, change.statement.span});
    }
    for (const DeclaredSeries& s : own_.series) {
      const auto twin = std::find_if(base_.series.begin(), base_.series.end(),
                                     [&](const DeclaredSeries& o) { return o.name == s.name; });
      if (twin != base_.series.end()) {
        findings_.add(diag::make(catalogue::name_taken, s.statement.place("first"), s.name))
            .with_label(twin->statement.span, "by this series of the base")
            .with_help(fmt::format("to change it write `change series {} = ...`", s.name));
        continue;
      }
      out.series.push_back(s);
    }
  }

  void drop_views(Declared& out) {
    std::unordered_set<std::string_view> dropped;
    out.dropped = base_.dropped;
    for (const ViewDrop& drop : own_.drops) {
      if (base_views_.count(drop.name) == 0) {
        report_unknown_view(base_, drop.statement.place("name"), drop.name, findings_);
        continue;
      }
      dropped.insert(drop.name);
      out.dropped.emplace_back(drop.name, drop.statement.span);
      out.edits.push_back(
          {Edit::What::drop_view, drop.name, reason_in(drop.statement), drop.statement.span});
    }
    if (dropped.empty()) return;
    out.views.erase(
        std::remove_if(out.views.begin(), out.views.end(),
                       [&](const DeclaredView& v) { return dropped.count(v.name) == 1; }),
        out.views.end());
    constexpr std::size_t most_told = 100; // more of them say nothing new
    for (std::size_t i = 0; i < std::min(most_told, own_.drops.size()); ++i)
      check_drop(own_.drops[i], out);
  }

  void check_drop(const ViewDrop& drop, Declared& out) {
    const text::Span name = drop.statement.place("name");
    for (DeclaredView& v : out.views) {
      if (name_in(v.heading, "same") != drop.name) continue;
      findings_
          .add(diag::make(catalogue::source_dropped, name, drop.name,
                          fmt::format("view `{}`, which is made from it,", v.name)))
          .with_label(v.heading.span, "made from it here")
          .with_help(fmt::format("drop `{}`, too, or write it as a view of its own", v.name));
      v.heading.broken = true; // it has no source; nothing more is said of it
    }
    for (DeclaredSeries& s : out.series) {
      const auto lists =
          std::find_if(s.statement.parts.begin(), s.statement.parts.end(), [&](const Part& part) {
            const std::size_t at = part.clause->slot == "first" ? 1 : 0;
            return part.values[at].as<words::Name>()->text == drop.name;
          });
      if (lists == s.statement.parts.end()) continue;
      findings_.add(diag::make(catalogue::dropped_from_series, name, drop.name, s.name))
          .with_label(s.statement.place(*lists), "listed here")
          .with_help(fmt::format("write the series without it: `change series {} = ...`", s.name));
      s.statement.broken = true;
    }
  }

  /// What a base keeps fixed must come out as there, whichever way it would have changed.
  void check_fixed(const Declared& out) {
    diag::Findings quiet; // what is wrong with the views is reported when they are resolved
    Views before(base_, std::nullopt, quiet);
    Views after(out, std::nullopt, quiet);
    const auto now_views = out.by_name();
    for (const DeclaredView& view : base_.views) {
      const std::vector<Statement>* old =
          view.heading.broken ? nullptr : before.statements_of(view.name);
      if (old == nullptr) continue;
      const auto here = now_views.find(view.name);
      if (here == now_views.end()) continue;
      const auto fixed = std::find_if(old->begin(), old->end(), [](const Statement& s) {
        return s.word->name == "others must keep" && !s.broken;
      });
      if (fixed == old->end() || here->second->heading.broken) continue;
      const std::vector<Statement>* now = after.statements_of(view.name);
      if (now == nullptr) continue;
      check_word(*fixed, "others must keep", view.name, *old, *now);
      for (const Part& part : fixed->parts)
        check_word(*fixed, part.values[0].symbol(), view.name, *old, *now);
    }
  }

  void check_word(const Statement& fixed, std::string_view word, const std::string& view,
                  const std::vector<Statement>& old, const std::vector<Statement>& now) {
    const auto said = [&](const std::vector<Statement>& statements, text::Span& last) {
      std::vector<std::string> lines;
      for (const Statement& s : statements) {
        if (s.word->name != word) continue;
        lines.push_back(to_text(s));
        last = s.also.known() ? s.also : s.span;
      }
      std::sort(lines.begin(), lines.end());
      return lines;
    };
    text::Span before;
    text::Span after;
    if (said(old, before) == said(now, after)) return;
    // Where it was removed there is nothing to point to but the edit's own protocol.
    const text::Span at = after.known() && after.file == own_.file ? after : edit_of(view);
    findings_.add(diag::make(catalogue::fixed_by_base, at, word, view, base_in(fixed.span.file)))
        .with_label(fixed.span, "said here")
        .with_help("leave it as it is, or ask those who answer for the base");
  }

  /// The base that stands in this file: it may be a base of the base.
  std::string base_in(text::FileId file) const {
    const auto found = std::find_if(base_.bases.begin(), base_.bases.end(),
                                    [&](const auto& b) { return b.first == file; });
    return found == base_.bases.end() ? base_.name : found->second;
  }

  text::Span edit_of(const std::string& view) const {
    for (const ViewChange& c : own_.changes) {
      if (c.name == view) return c.heading.span;
    }
    return own_.heading;
  }

  const Declared& base_;
  std::unordered_map<std::string_view, const DeclaredView*> base_views_;
  Declared own_;
  diag::Findings& findings_;
};

} // namespace

Declared extended(const Declared& base, Declared own, diag::Findings& findings) {
  return Extension(base, std::move(own), findings).make();
}

} // namespace norma::model
