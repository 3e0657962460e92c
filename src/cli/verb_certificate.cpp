// certificate.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <chrono>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include "cli/verbs.hpp"
#include "desk/json.hpp"
#include "serve/home_authority.hpp"

namespace sowtide::cli {
namespace {

void show_json(const serve::MadeCertificate& made, std::ostream& out) {
  std::vector<std::string> hosts;
  for (const std::string& host : made.hosts) hosts.push_back(desk::json_text(host));
  fmt::print(
      out,
      "{{\"authority\":{{\"file\":{},\"key_file\":{},\"made\":{},\"last_day\":\"{}\",\"sha256\":\"{}\"}},"
      "\"server\":{{\"file\":{},\"key_file\":{},\"last_day\":\"{}\",\"hosts\":[{}]}}}}\n",
      desk::json_text(made.authority_file), desk::json_text(made.authority_key_file), made.new_authority,
      base::to_iso(made.authority_last_day), made.authority_sha256, desk::json_text(made.certificate_file),
      desk::json_text(made.key_file), base::to_iso(made.certificate_last_day), fmt::join(hosts, ","));
}

void show_files(const serve::MadeCertificate& made, std::ostream& out) {
  fmt::print(out, "{} {}, an authority of this home, good until {}.\n",
             made.new_authority ? "Made" : "Signed with", made.authority_file,
             base::to_iso(made.authority_last_day));
  fmt::print(out, "Made {} and {}, for this machine, good until {}:\n  {}\n", made.certificate_file,
             made.key_file, base::to_iso(made.certificate_last_day), fmt::join(made.hosts, ", "));
}

/// What a person does once on each phone. The menus' names are from memory; makers move them.
void show_phone_steps(const serve::MadeCertificate& made, std::ostream& out) {
  fmt::print(
      out,
      "\nOnce on each phone:\n"
      "1. Put {} on it, by cable or in a message to yourself. No other file.\n"
      "2. Let it trust that file.\n"
      "   Android: Settings, search for \"CA certificate\" (Security, Encryption and credentials, Install a\n"
      "   certificate). If the file is not offered, name it authority.crt.\n"
      "   iPhone: open the file, then Settings, General, VPN and Device Management, install; then Settings,\n"
      "   General, About, Certificate Trust Settings, switch it on.\n"
      "   Its SHA-256 must be {}\n",
      made.authority_file, made.authority_sha256);
}

void show_start(const serve::MadeCertificate& made, std::ostream& out) {
  fmt::print(out, "\nThen start:\n  sowtide serve GARDEN --lan --certificate {} --key {}\n",
             made.certificate_file, made.key_file);
  fmt::print(out,
             "\nWhoever has {} can pose as any site of your home network to those phones: leave it\n"
             "where only you can read it, and give it to nobody. The authority cannot sign for the internet. "
             "When you\n"
             "no longer use it, remove it from the phones.\n",
             made.authority_key_file);
}

}  // namespace

base::Result<void> run_certificate(const CertificateVerbOptions& options, Output& output) {
  std::vector<std::string> hosts = serve::own_hosts();
  hosts.insert(hosts.end(), options.hosts.begin(), options.hosts.end());
  const auto made =
      serve::make_certificate({options.directory, std::move(hosts), std::chrono::system_clock::now()});
  if (!made) return tl::make_unexpected(made.error());
  if (output.json) {
    show_json(*made, output.out);
    return {};
  }
  show_files(*made, output.out);
  if (made->new_authority) show_phone_steps(*made, output.out);
  show_start(*made, output.out);
  return {};
}

}  // namespace sowtide::cli
