#include "model/views.hpp"

#include <algorithm>

#include "diag/catalogue.hpp"
#include "model/derive.hpp"
#include "model/merge.hpp"
#include "text/suggest.hpp"

namespace norma::model {

namespace catalogue = diag::catalogue;

void report_unknown_view(const Declared& declared, text::Span span, std::string_view name,
                         diag::Findings& findings) {
  // Where the base could not be read, its views are missing for a reason that was told.
  if (declared.base && !declared.sound) return;
  // So is one whose heading could not be read.
  const auto& unread = declared.unread;
  if (std::find(unread.begin(), unread.end(), name) != unread.end()) return;
  auto& d = findings.add(diag::make(catalogue::unknown_view, span, name));
  const auto dropped = std::find_if(declared.dropped.begin(), declared.dropped.end(),
                                    [&](const auto& view) { return view.first == name; });
  if (dropped != declared.dropped.end()) {
    d.with_label(dropped->second, "dropped here")
        .with_help("change the view that names it, too: `change view ... { }`");
    return;
  }
  std::vector<std::string_view> names;
  for (const DeclaredView& v : declared.views)
    names.push_back(v.name);
  if (const auto near = text::nearest(name, names)) {
    d.with_fix(span, std::string(*near), false).with_help(fmt::format("did you mean `{}`?", *near));
  }
}

const std::vector<Statement>* Views::statements_of(const std::string& name) {
  const auto done = resolved_.find(name);
  if (done != resolved_.end()) return done->second ? &*done->second : nullptr;
  const DeclaredView& view = *views_.at(name);
  if (std::find(path_.begin(), path_.end(), name) != path_.end()) {
    std::string circle;
    for (const std::string& step : path_)
      circle += step + ", ";
    findings_.add(diag::make(catalogue::goes_in_circles,
                             view.heading.place(*view.heading.part("same")), circle + name));
    for (const std::string& step : path_)
      resolved_[step] = std::nullopt;
    return nullptr;
  }
  if (too_deep(view, path_.size())) {
    resolved_[name] = std::nullopt;
    return nullptr;
  }
  path_.push_back(name);
  std::optional<std::vector<Statement>> result = resolve(view);
  path_.pop_back();
  if (sources_.count(name) == 0) {
    last_ = std::move(result);
    return last_ ? &*last_ : nullptr;
  }
  const auto entry = resolved_.try_emplace(name, std::move(result)).first;
  return entry->second ? &*entry->second : nullptr;
}

/// The block over what lies below it; blocks for groups come on top, the narrower one last.
std::vector<Statement> Views::layered(const Block& block, std::vector<Statement> below) const {
  std::vector<Statement> out = merged(below, block.said);
  if (!group_) return out;
  for (const bool exact : {false, true}) {
    for (const GroupBlock& g : block.groups) {
      if (group_->within(g.group) && (g.group == *group_) == exact) out = merged(out, g.said);
    }
  }
  return out;
}

std::optional<std::vector<Statement>> Views::resolve(const DeclaredView& view) {
  const Part* same = view.heading.part("same");
  if (same == nullptr) {
    const Block& every =
        view.kind == ViewKind::mouth ? declared_.every_mouth : declared_.every_face;
    return bounded(view, layered(view.block, layered(every, {})));
  }
  const std::string source = name_in(view.heading, "same");
  if (views_.count(source) == 0) {
    report_unknown_view(declared_, view.heading.place("same"), source, findings_);
    return std::nullopt;
  }
  const std::vector<Statement>* base = statements_of(source);
  if (base == nullptr) return std::nullopt;
  const std::size_t depth = depth_[source] + 1;
  depth_[view.name] = depth;
  if (too_deep(view, depth)) return std::nullopt;
  const std::string_view crossing = view.heading.symbol("crossing");
  if (crossing.empty()) return bounded(view, layered(view.block, *base));
  std::vector<Statement> crossed =
      derived(*base, crossing == "other side" ? Crossing::other_side : Crossing::other_jaw);
  if (crossing != "other side") check_jaw(view, crossing, source, crossed);
  return bounded(view, layered(view.block, std::move(crossed)));
}

/// Views made from views bound the depth of this program's own calls.
bool Views::too_deep(const DeclaredView& view, std::size_t depth) {
  if (depth <= deepest_view) return false;
  findings_
      .add(
          diag::make(catalogue::protocol_too_large, view.heading.span,
                     fmt::format("views are made from each other more than {} deep", deepest_view)))
      .with_help("make them from the same view");
  return true;
}

/// The last layer is laid; nothing where there is more than norma keeps.
std::optional<std::vector<Statement>> Views::bounded(const DeclaredView& view,
                                                     std::vector<Statement> statements) {
  const auto too_large = [&](text::Span at, std::string what) {
    findings_.add(diag::make(catalogue::protocol_too_large, at, what));
    return std::nullopt;
  };
  if (statements.size() > most_in_view) {
    return too_large(
        view.heading.span,
        fmt::format("this view has more than {} statements when all is resolved", most_in_view));
  }
  total_ += statements.size();
  if (total_ > most_resolved) {
    // Told once, at the protocol: the views are many.
    return too_large(declared_.heading,
                     fmt::format("the protocol has more than {} statements when all is resolved",
                                 most_resolved));
  }
  return finished(std::move(statements), findings_);
}

/// `for the lower jaw` made from a view of the lower jaw would show the upper one.
void Views::check_jaw(const DeclaredView& view, std::string_view crossing, std::string_view source,
                      const std::vector<Statement>& crossed) {
  if (crossing == "other jaw") return;
  const bool upper = crossing == "upper jaw";
  for (const Statement& s : crossed) {
    if (s.word->name != "must show") continue;
    for (const Part& part : s.parts) {
      for (const words::Value& v : part.values) {
        const auto* run = v.as<words::ToothRun>();
        if (run == nullptr || run->first.is_upper() == upper) continue;
        findings_.add(diag::make(catalogue::wrong_jaw,
                                 view.heading.place(*view.heading.part("crossing")),
                                 upper ? "upper" : "lower", source));
        return;
      }
    }
  }
}

} // namespace norma::model
