#include "emit/kit_due.hpp"

#include "emit/frame_words.hpp"
#include "kit/due.hpp"
#include "plan/limits.hpp"

namespace norma::emit {
namespace {

namespace defaults = physics::defaults;

template <class Piece> diag::Said name_of(const Piece& piece, diag::Said otherwise) {
  return piece.name.known() ? diag::Said(piece.name.get()) : std::move(otherwise);
}

class DueLines {
 public:
  DueLines(const kit::Kit& kit, words::Date on, const wording::Language& in)
      : kit_(kit), on_(on), in_(in) {}

  std::vector<std::string> build() {
    for (const kit::Lamp& l : kit_.lamps) {
      if (!l.reference) continue;
      add(frame::due_shot(name_of(l, frame::a_lamp())), l.reference->date,
          kit::age_of(l.reference->date, on_), defaults::shot_good_for);
    }
    for (const kit::Retractor& r : kit_.retractors)
      if (const auto frosting = kit::frosting_of(r, on_)) add(r, *frosting);
    for (const kit::Mirror& m : kit_.mirrors) {
      if (const auto age = kit::loss_age_of(m, on_))
        add(frame::due_loss(name_of(m, frame::a_mirror())), m.measured, *age,
            defaults::loss_good_for);
    }
    return std::move(lines_);
  }

 private:
  void add(const kit::Retractor& r, const kit::Frosting& frosting) {
    diag::Said what = frame::due_frosting(name_of(r, frame::a_retractor()));
    if (!frosting.cycles) {
      add(std::move(what), r.frosted_on, frosting.age, defaults::frosting_good_for);
    } else if (frosting.cycles->due()) {
      put(frame::due_cycles(std::move(what), frosting.cycles->passed, frosting.cycles->last_for));
    }
  }

  void add(diag::Said what, const text::Sourced<words::Date>& day, kit::Age age,
           const physics::Default& limit) {
    const int good_for = static_cast<int>(plan::limit_of(&kit_, limit).value());
    if (age.since == kit::Age::Since::ahead) {
      put(frame::due_ahead(std::move(what), wording::day_said(day.get())));
    } else if (age.due(good_for)) {
      put(frame::due_months(std::move(what), age.months, wording::day_said(day.get()), good_for));
    }
  }

  void put(const diag::Said& line) { lines_.push_back(in_.text(line)); }

  const kit::Kit& kit_;
  words::Date on_;
  const wording::Language& in_;
  std::vector<std::string> lines_;
};

} // namespace

std::vector<std::string> due_lines(const kit::Kit& kit, words::Date on,
                                   const wording::Language& in) {
  return DueLines(kit, on, in).build();
}

} // namespace norma::emit
