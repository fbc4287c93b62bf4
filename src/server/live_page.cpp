#include "server/live_page.hpp"

#include <utility>

#include "server/server_words.hpp"

namespace norma::server {

std::variant<std::string, diag::Said> LivePage::open() {
  if (site_ != nullptr) return site_->address();
  if (!open_host_) return said::no_page();
  auto key = live::random_key();
  if (!key) return said::no_random();
  auto site = std::make_unique<live::Site>(*std::move(key), in_);
  auto host = open_host_(*site, 0);
  if (auto* why = std::get_if<std::string>(&host)) return said::cannot_listen(*why);
  site_ = std::move(site);
  host_ = std::move(std::get<std::unique_ptr<live::Host>>(host));
  if (auto now = shown()) site_->show(std::move(now));
  return site_->address();
}

void LivePage::show_file(const std::string& file) {
  if (file == file_) return;
  file_ = file;
  keeper_ = std::make_unique<live::Keeper>(file, in_);
}

void LivePage::put(std::shared_ptr<const live::Shown> shown) {
  if (told_) told_(*shown);
  if (site_ != nullptr) site_->show(std::move(shown));
}

void LivePage::show(std::shared_ptr<const report::Report> report) {
  put(keeper_->next(std::move(report)));
}

void LivePage::lost(const diag::Said& why) { put(keeper_->lost(why)); }

} // namespace norma::server
