// Which views a checklist has, in which order, which of them can be had, and what changes from one
// to the next.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "emit/tray.hpp"
#include "plan/walk/walk.hpp"
#include "report/report.hpp"

namespace norma::emit {

using Findings = std::vector<const diag::Diagnostic*>;

/// Those of the protocol's own file first, then those of what it builds on, in the order in which
/// it does, then the kit's: a sheet is the same, whatever else is on the command line.
Findings in_order_of(const report::Report& report, const report::Held& held, Findings findings);

/// A view of the list, the errors that stand against it (lived-with ones do not), and what of the
/// camera nobody knows how to set; empty where it is settled, or no camera is known.
struct ListedView {
  SeriesView is;
  Findings errors;
  diag::Said unsettled;
  plan::Step step{}; // where it can be had
  [[nodiscard]] bool can_be_had() const { return errors.empty() && unsettled.empty(); }
};

/// The series by that name; "": the longest one. Null where there is none: all views.
const model::Series* listed_series(const plan::Plan& plan, std::string_view wanted);

class ListedViews {
 public:
  ListedViews(const report::Report& report, const report::Held& held, const model::Series* series);

  [[nodiscard]] const std::vector<ListedView>& all() const { return all_; }
  /// Those that can be had.
  [[nodiscard]] const std::vector<SeriesView>& taken() const { return taken_; }
  /// After the last view of the series; second choices do not count.
  [[nodiscard]] const plan::Moment& last() const { return last_; }
  [[nodiscard]] bool any_in_mouth() const {
    return taken_of_[static_cast<std::size_t>(model::ViewKind::mouth)] > 0;
  }
  /// The view whose settings are on the camera; null before the first one.
  [[nodiscard]] const plan::ViewPlan* set_before(const ListedView& view) const;
  /// The view of the series that comes after the one a second choice stands in for; null where none
  /// does.
  [[nodiscard]] const ListedView* next_after(const ListedView& second) const;
  /// From 1.
  [[nodiscard]] int number_of(const ListedView& view) const {
    return static_cast<int>(&view - all_.data()) + 1;
  }
  [[nodiscard]] const ListedView* find(const plan::ViewPlan* view) const;

  // What counts for every view of one kind that can be had; only where there are several of it.
  [[nodiscard]] std::size_t taken_of(model::ViewKind kind) const {
    return taken_of_[static_cast<std::size_t>(kind)];
  }
  [[nodiscard]] const std::vector<plan::Act>& for_all(model::ViewKind kind) const {
    return for_all_[static_cast<std::size_t>(kind)];
  }
  [[nodiscard]] bool is_for_all(model::ViewKind kind, const plan::Act& act) const;
  /// The same of a view's own texts.
  using Texts = std::vector<text::Sourced<std::string>> model::View::*;
  [[nodiscard]] bool is_for_all(model::ViewKind kind, Texts texts, const std::string& one) const;

 private:
  void walk(const plan::Plan& plan);
  /// The view from which one goes on: of a second choice what it stands in for, as that was set up;
  /// else the one before it. Null before the first one.
  struct Start {
    const ListedView* view = nullptr;
    bool set_up = false;
  };
  [[nodiscard]] Start start_of(const ListedView& view) const;
  void find_for_all();

  std::vector<ListedView> all_;
  std::vector<SeriesView> taken_;
  plan::Moment last_;
  std::array<std::size_t, 2> taken_of_{};
  std::array<std::vector<plan::Act>, 2> for_all_;
};

/// Is the same done, by the same person, in the same way?
bool same(const plan::Act& a, const plan::Act& b);

} // namespace norma::emit
