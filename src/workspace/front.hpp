// From a path to typed protocols: parsed, declared, built, resolved.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <variant>

#include "workspace/files.hpp"
#include "workspace/workspace.hpp"

namespace norma::workspace {

/// Texts taken together, so that no two lists give the same.
class Key {
 public:
  Key& operator<<(std::string_view text) {
    number(text.size());
    bytes_ += text;
    return *this;
  }
  Key& number(std::uint64_t n) {
    bytes_.append(reinterpret_cast<const char*>(&n), sizeof n);
    return *this;
  }
  [[nodiscard]] const std::string& bytes() const { return bytes_; }

 private:
  std::string bytes_;
};

/// Why a question has no answer, as the end of the question that asked it; nothing where it has
/// one.
template <class To, class From> std::optional<To> no_answer(const From& answer) {
  if (const auto* error = std::get_if<NoFile>(&answer)) return *error;
  if (std::holds_alternative<Cancelled>(answer)) return Cancelled{};
  return std::nullopt;
}

/// What one question needs of the stages that come before kits. By one thread.
class Front {
 public:
  Front(State& state, Store& store, const Cancel& cancel)
      : state_(state), store_(store), cancel_(cancel) {}

  std::shared_ptr<const Parsed> parsed(const std::shared_ptr<const Version>& version);
  /// All that its protocols rest on.
  Answer<std::string> key(const std::string& path, const Ask& ask);
  Shared<Built> built(const std::string& path, const std::string& root);
  Shared<Resolved> resolved(const std::string& path, const Ask& ask);

 private:
  using VersionPtr = std::shared_ptr<const Version>;
  struct Own {
    std::shared_ptr<const DeclaredFile> file;
    std::shared_ptr<model::Declared> mine; // its protocol, where nobody else has it
  };
  struct Made {
    std::shared_ptr<const Built> built; // null where the question was cancelled
    std::shared_ptr<model::Declared> mine;
  };

  Answer<std::shared_ptr<const Chain>> chain(const std::string& path, std::string root);
  Import import(const Chain::Link& link, const std::string& root);
  Own own(const VersionPtr& version);
  Own take(const VersionPtr& version);
  Made built(const Chain& chain);
  Made build(const Chain& chain, std::size_t index, const std::shared_ptr<const Built>& base);
  void lay(model::Declared& own, const Chain& chain, std::size_t index, const Built* base,
           diag::Findings& findings) const;
  Resolved resolve(const Made& made, const Ask& ask);

  State& state_;
  Store& store_;
  const Cancel& cancel_;
  std::unordered_map<text::FileId, Own> fresh_; // read for this question, and kept nowhere else
};

} // namespace norma::workspace
