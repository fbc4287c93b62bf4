// norma with the heavy libraries: the same commands, PDF, revisions of a repository, and pages.
#include "cli/commit.hpp"
#include "cli/program.hpp"
#include "press/pdf.hpp"
#include "press/repository.hpp"
#include "web/host.hpp"

int main(int argc, char** argv) {
  return norma::cli::program(argc, argv, norma::cli::commit(), norma::press::pdf,
                             norma::press::repository(),
                             [](norma::live::Site& site, std::uint16_t port) {
                               return norma::web::open_host(site, port);
                             });
}
