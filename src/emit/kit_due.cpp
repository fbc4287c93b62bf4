#include "emit/kit_due.hpp"

#include <fmt/core.h>

#include "kit/due.hpp"
#include "kit/tell.hpp"
#include "plan/limits.hpp"

namespace norma::emit {
namespace {

namespace defaults = physics::defaults;

class DueLines {
 public:
  DueLines(const kit::Kit& kit, words::Date on) : kit_(kit), on_(on) {}

  std::vector<std::string> build() {
    for (const kit::Lamp& l : kit_.lamps) {
      if (!l.reference) continue;
      add("reference shot of " + name_of(l, "a lamp"), l.reference->date,
          kit::age_of(l.reference->date, on_), defaults::shot_good_for);
    }
    for (const kit::Retractor& r : kit_.retractors)
      if (const auto frosting = kit::frosting_of(r, on_)) add(r, *frosting);
    for (const kit::Mirror& m : kit_.mirrors) {
      if (const auto age = kit::loss_age_of(m, on_))
        add("loss of " + name_of(m, "a mirror"), m.measured, *age, defaults::loss_good_for);
    }
    return std::move(lines_);
  }

 private:
  void add(const kit::Retractor& r, const kit::Frosting& frosting) {
    const std::string what = "frosting of " + name_of(r, "a retractor");
    if (!frosting.cycles) {
      add(what, r.frosted_on, frosting.age, defaults::frosting_good_for);
    } else if (frosting.cycles->due()) {
      lines_.push_back(fmt::format("{}: {} cycles of {}", what, frosting.cycles->passed,
                                   frosting.cycles->last_for));
    }
  }

  void add(const std::string& what, const text::Sourced<words::Date>& day, kit::Age age,
           const physics::Default& limit) {
    const int good_for = static_cast<int>(plan::limit_of(&kit_, limit).value());
    if (age.since == kit::Age::Since::ahead) {
      lines_.push_back(fmt::format("{}: the day that is given, {}, lies ahead", what,
                                   words::to_text(day.get())));
    } else if (age.due(good_for)) {
      lines_.push_back(fmt::format("{}: {} months ago, on {}; after {} months it is due", what,
                                   age.months, words::to_text(day.get()), good_for));
    }
  }

  const kit::Kit& kit_;
  words::Date on_;
  std::vector<std::string> lines_;
};

} // namespace

std::vector<std::string> due_lines(const kit::Kit& kit, words::Date on) {
  return DueLines(kit, on).build();
}

} // namespace norma::emit
