#include "live/state_json.hpp"

#include <algorithm>
#include <set>
#include <string_view>

#include "emit/frame_words.hpp"
#include "emit/list_words.hpp"
#include "emit/not_checked.hpp"
#include "emit/subject_words.hpp"
#include "live/live_words.hpp"
#include "text/utf8.hpp"

namespace norma::live {
namespace {

using emit::Json;

bool within(text::Span inner, text::Span outer) {
  return inner.file == outer.file && inner.begin >= outer.begin && inner.end <= outer.end;
}

class StateWriter {
 public:
  StateWriter(const State& state, const wording::Language& in) : state_(state), in_(in) {}

  std::string write() {
    out_ = {{"revision", state_.revision}, {"title", state_.title}};
    const report::Report* report = state_.report;
    if (report != nullptr && !report->held.empty()) {
      const plan::Plan& plan = report->held.front().plan;
      out_["title"] = plan.protocol->title.empty() ? plan.protocol->name : plan.protocol->title;
      out_["about"] = in_.text(emit::protocol_said(plan, nullptr)) + " " +
                      (report->kits.size() > 1 ? std::string() : in_.text(emit::kit_said(plan)));
      out_["caution"] = in_.text(emit::list::care_who_decides());
    }
    if (!state_.status.empty()) out_["status"] = in_.text(state_.status);
    views();
    if (report != nullptr) {
      findings(*report);
      not_checked(*report);
    } else {
      out_["findings"] = Json::array();
    }
    return in_one_line(out_);
  }

 private:
  void views() {
    const std::vector<ShownView>& all = *state_.views;
    Json list = Json::array();
    int changed = -1;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const ShownView& view = all[i];
      const bool edited = view.key() == state_.changed;
      if (edited) changed = static_cast<int>(i);
      if (i >= most_views && !edited) continue;
      Json one = {{"number", i}, {"name", view.name}, {"title", view.title}};
      if (!view.of.empty()) one["of"] = view.of;
      if (view.worst) {
        one["mark"] = diag::to_text(*view.worst);
        one["mark_text"] = in_.text(emit::severity_said(*view.worst));
      }
      if (view.old) one["old"] = in_.text(said::old_short());
      list.push_back(std::move(one));
    }
    if (list.size() < all.size())
      out_["more_views"] = in_.text(said::more_views(static_cast<int>(all.size() - list.size())));
    if (all.empty()) out_["no_view"] = in_.text(said::no_view());
    out_["views"] = std::move(list);
    out_["changed"] = {{"view", changed}, {"count", state_.changes}};
  }

  /// The numbers of the views that it speaks of, or that it stands in.
  [[nodiscard]] std::vector<std::size_t> views_of(const report::Report& report,
                                                  const diag::Diagnostic& d) const {
    std::vector<std::size_t> out;
    const std::vector<std::size_t>& begins = *state_.begins;
    bool named = false;
    for (const diag::Subject& about : d.about) {
      if (about.view == diag::Subject::none) continue;
      named = true;
      for (std::size_t h = 0; h < report.held.size(); ++h) {
        if (about.meets(report.held[h].about))
          out.push_back(begins[h] + static_cast<std::size_t>(about.view));
      }
    }
    for (std::size_t h = 0; h < report.held.size() && !named && d.span.known(); ++h)
      stands_in(report, h, d.span, out);
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
  }

  /// The views in whose block this place lies, and those that are made from them.
  void stands_in(const report::Report& report, std::size_t of, text::Span span,
                 std::vector<std::size_t>& out) const {
    const report::Held& held = report.held[of];
    const auto& views = held.plan.views;
    std::set<std::string_view> names;
    for (const plan::ViewPlan& view : views) {
      const text::Span whole = in_report(report, held, view.view->whole);
      if (whole.known() && within(span, whole)) names.insert(view.view->name);
    }
    for (std::size_t before = 0; before != names.size();) {
      before = names.size();
      for (const plan::ViewPlan& view : views) {
        if (names.count(view.view->made_from) == 1) names.insert(view.view->name);
      }
    }
    for (std::size_t i = 0; i < views.size() && !names.empty(); ++i) {
      if (names.count(views[i].view->name) == 1) out.push_back((*state_.begins)[of] + i);
    }
  }

  void findings(const report::Report& report) {
    Json list = Json::array();
    std::size_t left_out = report.findings.dropped();
    for (const diag::Diagnostic& d : report.findings.all()) {
      if (list.size() < most_findings)
        list.push_back(finding(report, d));
      else
        ++left_out;
    }
    out_["findings"] = std::move(list);
    if (left_out > 0)
      out_["more_findings"] = in_.text(said::more_findings(static_cast<int>(left_out)));
  }

  [[nodiscard]] Json finding(const report::Report& report, const diag::Diagnostic& d) const {
    const diag::Said severity = emit::severity_said(d.severity);
    const bool accepted = !d.accepted.empty();
    Json out = {{"grave", accepted ? "accepted" : diag::to_text(d.severity)},
                {"grave_text", in_.text(accepted ? emit::frame::accepted(severity) : severity)},
                {"code", d.definition->code},
                {"message", in_.text(d.message)}};
    const std::string about = emit::about_text(report, d, d.about, in_);
    if (!about.empty()) out["about"] = about;
    if (d.span.known()) {
      const text::Source& source = report.sources[d.span.file];
      const std::string& name = source.name();
      constexpr std::size_t longest_line = 200;
      out["file"] = name.substr(name.rfind('/') + 1);
      out["line"] = in_.text(said::line(static_cast<int>(source.place(d.span.begin).line)));
      std::string_view line = source.line_at(d.span.begin);
      line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
      out["text"] = text::cut(text::printable(line), longest_line);
    }
    Json more = Json::array();
    if (accepted) more.push_back(in_.text(emit::frame::because(d.accepted)));
    for (const diag::Said& note : d.notes)
      more.push_back(in_.text(emit::frame::note(note)));
    for (const diag::Said& help : d.help)
      more.push_back(in_.text(emit::frame::help(help)));
    out["more"] = std::move(more);
    out["views"] = views_of(report, d);
    return out;
  }

  /// Of no view: those are told with their view.
  void not_checked(const report::Report& report) {
    std::vector<const report::NotChecked*> asked;
    for (const report::NotChecked& n : report.not_checked) {
      if (n.about.view == diag::Subject::none) asked.push_back(&n);
    }
    out_["not_checked"] = emit::not_checked_lines(report, asked, emit::Naming::all, in_);
  }

  const State& state_;
  const wording::Language& in_;
  Json out_;
};

} // namespace

std::string in_one_line(const emit::Json& json) {
  return text::printable_json(json.dump(-1, ' ', false, emit::Json::error_handler_t::replace));
}

text::Span in_report(const report::Report& report, const report::Held& held, text::Span span) {
  const report::File& from = report.files[static_cast<std::size_t>(held.about.file)];
  const auto at = std::find(from.numbers.begin(), from.numbers.end(), span.file);
  span.file = at == from.numbers.end()
                  ? text::FileId::none
                  : from.read[static_cast<std::size_t>(at - from.numbers.begin())];
  return span;
}

std::string state_json(const State& state, const wording::Language& in) {
  return StateWriter(state, in).write();
}

} // namespace norma::live
