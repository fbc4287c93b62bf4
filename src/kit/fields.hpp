// The fields that a row can fill, by literal: `length<&Lens::focal_length>(1.0 * mm, 2.0 * metre)`.
// Members of members are named one behind the other.
#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "kit/key.hpp"
#include "kit/reader.hpp"
#include "kit/tell.hpp"

namespace norma::kit {

// Values as `norma kit` says them.
std::string text_of(int n);
std::string text_of(double n);
std::string text_of(const std::string& s);
std::string text_of(PupilRatio p);
std::string text_of(RefractiveIndex n);
std::string text_of(Share s);
std::string text_of(words::Date d);
std::string text_of(const physics::Tooth& tooth);
std::string text_of(Length l);
std::string text_of(Angle a);
std::string text_of(Stops s);
std::string text_of(Time t);
std::string text_of(FNumber n);
std::string text_of(Magnification m);
std::string text_of(Power p);
std::string text_of(IsoSpeed s);
std::string text_of(Illuminance e);
std::string text_of(ColourTemperature t);
std::string text_of(const Size& s);

namespace fields {

template <class M> struct Member;
template <class V, class C> struct Member<V C::*> { using Owner = C; };
template <auto... M> struct OwnerOf;
template <auto First, auto... Rest> struct OwnerOf<First, Rest...> {
  using Type = typename Member<decltype(First)>::Owner;
};
template <auto... M> using Owner = typename OwnerOf<M...>::Type;

template <auto First, auto... Rest, class T> decltype(auto) part(T& piece) {
  return ((piece.*First).*....*Rest);
}

template <class T> std::string text_of_known(const Sourced<T>& value) {
  return value.known() ? text_of(value.get()) : std::string();
}

/// Two ends in words; one where they are alike.
template <class T> std::string text_of_ends(const Sourced<T>& low, const Sourced<T>& high) {
  if (!low.known() || !high.known()) return "";
  const std::string first = text_of(low.get());
  const std::string second = text_of(high.get());
  return first == second ? first : first + " to " + second;
}

template <auto... M> std::string known_text(const Owner<M...>& piece) {
  return text_of_known(part<M...>(piece));
}
template <auto... M> bool absent(const Owner<M...>& piece) { return part<M...>(piece).absent(); }

/// A field of type Sourced<..>, by a function that reads such a value.
template <auto Read, auto... M> constexpr auto scalar(Form form) {
  using T = Owner<M...>;
  return Field<T>(
      form, [](Reader& r, const Yaml& y, const Form& f, T& t) { part<M...>(t) = Read(r, y, f); },
      known_text<M...>, absent<M...>, nullptr);
}

/// `a to b` by `read`, whichever was written first.
template <class V, class Read>
void read_ends(Reader& r, const Yaml& y, Sourced<V>& low, Sourced<V>& high, Read read) {
  const auto ends = r.ends(y);
  if (!ends) {
    low = high = Sourced<V>::broken(y.span);
    return;
  }
  low = read(ends->first);
  high = read(ends->second);
  if (low.known() && high.known() && high.get() < low.get()) std::swap(low, high);
}

/// Two fields, by a function that reads one of them.
template <auto Read, auto Low, auto High> constexpr auto two_ends(Form form) {
  using T = Owner<Low>;
  return Field<T>(
      form.as(Form::Shape::ends),
      [](Reader& r, const Yaml& y, const Form& f, T& t) {
        read_ends(r, y, t.*Low, t.*High, [&](const Yaml& end) { return Read(r, end, f); });
      },
      [](const T& t) { return text_of_ends(t.*Low, t.*High); },
      [](const T& t) { return (t.*Low).absent(); }, nullptr);
}

template <class E> constexpr auto names_of() {
  std::array<std::string_view, std::size(Choices<E>::rows)> names{};
  for (std::size_t i = 0; i < names.size(); ++i)
    names[i] = Choices<E>::rows[i].word;
  return names;
}
template <class E> inline constexpr auto choice_names = names_of<E>();

template <class M> struct ChoiceOf;
template <class E, class C> struct ChoiceOf<Sourced<E> C::*> { using Type = E; };
template <class E, class C> struct ChoiceOf<std::vector<E> C::*> { using Type = E; };

} // namespace fields

template <class E> std::string_view said_as(E value) {
  for (const Choice<E>& c : Choices<E>::rows)
    if (c.value == value) return c.said;
  return "";
}

// One value ---------------------------------------------------------------------------------------

template <auto... M> constexpr auto plain_text() {
  return fields::scalar<&read_text, M...>(Form::range(Form::Value::text, 1, longest_text));
}
template <auto... M> constexpr auto length(Length least, Length most) {
  return fields::scalar<&read_length, M...>(
      Form::range(Form::Value::length, least.in(mm), most.in(mm)));
}
template <auto... M> constexpr auto angle(double least_degrees, double most_degrees) {
  return fields::scalar<&read_angle, M...>(
      Form::range(Form::Value::angle, least_degrees, most_degrees));
}
template <auto... M> constexpr auto time(Time most) {
  return fields::scalar<&read_time, M...>(Form::range(Form::Value::time, 0, most.in(second)));
}
template <auto... M> constexpr auto light() {
  return fields::scalar<&read_light, M...>(Form::range(Form::Value::light, 0, brightest.in(lux)));
}
template <auto... M> constexpr auto temperature() {
  return fields::scalar<&read_temperature, M...>(
      Form::range(Form::Value::colour, warmest.in(kelvin), coldest.in(kelvin)));
}
template <auto... M> constexpr auto date() {
  return fields::scalar<&read_date, M...>(Form::range(Form::Value::date, 0, 0));
}
template <auto... M> constexpr auto size() {
  return fields::scalar<&read_size, M...>(
      Form::range(Form::Value::size, least_side.in(mm), greatest_side.in(mm)));
}
template <auto... M> constexpr auto ratio() {
  return fields::scalar<&read_ratio, M...>(
      Form::range(Form::Value::ratio, least_ratio.value(), greatest_ratio.value()));
}
template <auto... M> constexpr auto f_number() {
  return fields::scalar<&read_f_number, M...>(Form::range(Form::Value::f_number, 0, 0));
}
template <auto... M> constexpr auto power() {
  return fields::scalar<&read_power, M...>(Form::range(Form::Value::power, least_power.value(), 1));
}
template <auto... M> constexpr auto percent() {
  return fields::scalar<&read_percent, M...>(Form::range(Form::Value::percent, 1, 100));
}
template <auto... M> constexpr auto stops() {
  return fields::scalar<&read_stops, M...>(
      Form::range(Form::Value::stops, 0, greatest_loss.in(stop)));
}
template <auto... M> constexpr auto tooth() {
  return fields::scalar<&read_tooth, M...>(Form::range(Form::Value::tooth, 11, 85));
}
template <auto... M> constexpr auto whole(int least, int most) {
  return fields::scalar<&read_whole, M...>(Form::range(Form::Value::whole, least, most));
}
/// Any number with a type of its own and no unit.
template <class Q, auto... M> constexpr auto number(double least, double most) {
  return fields::scalar<&read_number<Q>, M...>(Form::range(Form::Value::number, least, most));
}

template <auto M> constexpr auto choice() {
  using E = typename fields::ChoiceOf<decltype(M)>::Type;
  using T = fields::Owner<M>;
  return Field<T>(
      Form::choice(Form::Shape::one, fields::choice_names<E>),
      [](Reader& r, const Yaml& y, const Form&, T& t) { t.*M = read_choice<E>(r, y); },
      [](const T& t) { return std::string((t.*M).known() ? said_as((t.*M).get()) : ""); },
      fields::absent<M>, nullptr);
}

// More than one -----------------------------------------------------------------------------------

template <auto Low, auto High> constexpr auto f_numbers() {
  return fields::two_ends<&read_f_number, Low, High>(f_number<Low>().form);
}
template <auto Low, auto High> constexpr auto ratios() {
  return fields::two_ends<&read_ratio, Low, High>(ratio<Low>().form);
}
template <auto Low, auto High> constexpr auto temperatures() {
  return fields::two_ends<&read_temperature, Low, High>(temperature<Low>().form);
}
template <class Q, auto Low, auto High> constexpr auto numbers(double least, double most) {
  return fields::two_ends<&read_number<Q>, Low, High>(number<Q, Low>(least, most).form);
}

/// One word or a list of them, none twice.
template <auto M> constexpr auto choices() {
  using E = typename fields::ChoiceOf<decltype(M)>::Type;
  using T = fields::Owner<M>;
  return Field<T>(
      Form::choice(Form::Shape::one_or_list, fields::choice_names<E>),
      [](Reader& r, const Yaml& y, const Form&, T& t) {
        const auto add = [&](const Yaml& one) {
          const auto value = read_choice<E>(r, one);
          if (!value.known()) return;
          if (std::find((t.*M).begin(), (t.*M).end(), value.get()) != (t.*M).end()) {
            r.out_of_range(one, "it is named twice");
            return;
          }
          (t.*M).push_back(value.get());
        };
        if (y.kind == Yaml::Kind::list) {
          for (const Yaml& item : y.items)
            add(item);
        } else {
          add(y);
        }
      },
      [](const T& t) {
        std::string all;
        for (const E& value : t.*M) {
          const bool last = &value == &(t.*M).back();
          all += (all.empty() ? "" : last ? " and " : ", ") + std::string(said_as(value));
        }
        return all;
      },
      [](const T& t) { return (t.*M).empty(); }, nullptr);
}

// Blocks ------------------------------------------------------------------------------------------

namespace fields {

template <class T> std::string nothing(const T& /*t*/) { return ""; }

template <class P> P read_piece(Reader& r, const Yaml& y, const Section<P>& section) {
  P piece;
  if constexpr (requires { piece.span; }) piece.span = y.span;
  read_section(r, y, section, piece);
  if (section.check != nullptr) section.check(r, piece);
  return piece;
}

template <class P>
void read_pieces(Reader& r, const Yaml& y, const Section<P>& section, std::vector<P>& target) {
  if (y.kind != Yaml::Kind::list) {
    r.wrong(y, "a list is wanted: each piece starts with `-`");
    return;
  }
  for (const Yaml& item : y.items)
    target.push_back(read_piece(r, item, section));
}

} // namespace fields

/// A block that may be left out: its field is an optional one. Where it stands in a piece with a
/// name, it is told by that name.
template <auto M, auto Keys> constexpr auto block() {
  using T = fields::Owner<M>;
  return Field<T>(
      Form::block(Form::Shape::one, [] { return rows_of(Keys()); }),
      [](Reader& r, const Yaml& y, const Form&, T& t) { t.*M = fields::read_piece(r, y, Keys()); },
      fields::nothing<T>, [](const T& t) { return !(t.*M); },
      [](const T& t, std::string_view name, std::vector<std::string>& out) {
        add_missing(Keys(), *(t.*M), name, out);
      });
}

/// A block whose keys fill the piece that it stands in.
template <auto Keys, class T> constexpr Field<T> block_of_same() {
  return Field<T>(
      Form::block(Form::Shape::one, [] { return rows_of(Keys()); }),
      [](Reader& r, const Yaml& y, const Form&, T& t) { read_section(r, y, Keys(), t); },
      fields::nothing<T>, [](const T&) { return false; },
      [](const T& t, std::string_view name, std::vector<std::string>& out) {
        add_missing(Keys(), t, name, out);
      });
}

/// A list of blocks; its field is a vector, or an optional one where an empty list says something.
template <auto M, auto Keys> constexpr auto blocks() {
  using T = fields::Owner<M>;
  return Field<T>(
      Form::block(Form::Shape::list, [] { return rows_of(Keys()); }),
      [](Reader& r, const Yaml& y, const Form&, T& t) {
        if constexpr (requires { (t.*M).emplace(); }) {
          fields::read_pieces(r, y, Keys(), (t.*M).emplace());
        } else {
          fields::read_pieces(r, y, Keys(), t.*M);
        }
      },
      fields::nothing<T>,
      [](const T& t) {
        if constexpr (requires { (t.*M).has_value(); }) {
          return !(t.*M).has_value();
        } else {
          return (t.*M).empty();
        }
      },
      [](const T& t, std::string_view /*name*/, std::vector<std::string>& out) {
        const auto add = [&](const auto& pieces) {
          for (const auto& piece : pieces)
            add_missing(Keys(), piece, name_of(piece, Keys().what), out);
        };
        if constexpr (requires { (t.*M).has_value(); }) {
          add(*(t.*M));
        } else {
          add(t.*M);
        }
      });
}

} // namespace norma::kit
