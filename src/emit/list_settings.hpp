// What is set on camera, lens and lamp, as a checklist says it.
#pragma once

#include <string>
#include <vector>

#include "emit/tray.hpp"
#include "plan/walk/walk.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// The aperture, or why there is none.
diag::Said aperture_said(const plan::Facts& facts);

class SettingWords {
 public:
  /// `taken`: all views that can be had; they outlive it.
  SettingWords(const plan::Plan& plan, const std::vector<SeriesView>& taken,
               const wording::Language& in)
      : plan_(plan), taken_(taken), in_(in), for_all_(alike_in_all()) {}

  /// What is set once: alike in all views, where there are several.
  [[nodiscard]] const diag::List& for_all() const { return for_all_; }
  /// What is not alike for all views and not set already; "" where all is. `before`: whose settings
  /// are on the camera; null before the first view.
  [[nodiscard]] std::string of(const plan::Step& step, const plan::ViewPlan* before) const;

  /// The same of what is neither the ratio nor the aperture nor the flash, those that are alike for
  /// all views told with the first.
  [[nodiscard]] diag::List besides(const plan::Step& step) const;

 private:
  [[nodiscard]] diag::List alike_in_all() const;
  [[nodiscard]] std::string common(const plan::FactRow& row) const;
  [[nodiscard]] diag::Said flash_of(const plan::ViewPlan& v) const;
  [[nodiscard]] diag::Said ratio_of(const plan::Facts& facts) const;

  const plan::Plan& plan_;
  const std::vector<SeriesView>& taken_;
  const wording::Language& in_;
  diag::List for_all_;
};

} // namespace norma::emit
