#include "serve/home_authority.hpp"

#include <fmt/format.h>
#include <openssl/ec.h>
#include <openssl/err.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "base/file.hpp"
#include "serve/detail/home_address.hpp"
#include "serve/detail/http_text.hpp"
#include "serve/detail/openssl.hpp"

namespace sowtide::serve {
namespace {

using base::ProblemCode;
using detail::CertificatePtr;
using detail::KeyPtr;

constexpr std::size_t kMostFileBytes = 1U << 20U;
/// All that the authority may sign for: RFC 1918, RFC 3927, loopback, and names that no public site can have
/// (RFC 6761 and 6762). A permitted name covers what ends in it.
constexpr const char* kHomeOnly =
    "critical,"
    "permitted;IP:10.0.0.0/255.0.0.0,permitted;IP:172.16.0.0/255.240.0.0,permitted;IP:192.168.0.0/"
    "255.255.0.0,"
    "permitted;IP:169.254.0.0/255.255.0.0,permitted;IP:127.0.0.0/255.0.0.0,"
    "permitted;DNS:localhost,permitted;DNS:local";

struct Authority {
  CertificatePtr certificate;
  KeyPtr key;
  bool is_new = false;
};

/// A broken invariant: with good arguments these calls fail only for want of memory or of random numbers.
void must(bool done, const char* what) {
  if (!done) throw std::runtime_error(fmt::format("OpenSSL cannot make {}", what));
}

KeyPtr new_key() {
  KeyPtr key(EVP_EC_gen("P-256"));
  must(key != nullptr, "a key");
  return key;
}

/// 127 random bits: RFC 5280 wants a positive number of 20 octets at most, the baseline requirements 64
/// random bits.
void set_serial(X509& certificate) {
  constexpr int kBits = 127;
  const detail::NumberPtr number(BN_new());
  must(number != nullptr && BN_rand(number.get(), kBits, BN_RAND_TOP_ANY, BN_RAND_BOTTOM_ANY) == 1 &&
           BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(&certificate)) != nullptr,
       "a serial number");
}

void set_life(X509& certificate, std::chrono::sys_seconds begin, std::chrono::sys_seconds end) {
  const auto seconds = [](std::chrono::sys_seconds time) {
    return static_cast<time_t>(time.time_since_epoch().count());
  };
  must(ASN1_TIME_set(X509_getm_notBefore(&certificate), seconds(begin)) != nullptr &&
           ASN1_TIME_set(X509_getm_notAfter(&certificate), seconds(end)) != nullptr,
       "a time");
}

void set_subject(X509& certificate, const std::string& common_name) {
  X509_NAME* name = X509_get_subject_name(&certificate);
  const auto add = [name](const char* field, const std::string& text) {
    must(X509_NAME_add_entry_by_txt(name, field, MBSTRING_UTF8,
                                    reinterpret_cast<const unsigned char*>(text.data()),
                                    static_cast<int>(text.size()), -1, 0) == 1,
         "a name");
  };
  add("O", "Sowtide");
  add("CN", common_name);
}

void add_extension(X509& certificate, X509& issuer, int nid, const std::string& value) {
  X509V3_CTX context{};
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, &issuer, &certificate, nullptr, nullptr, 0);
  const detail::ExtensionPtr extension(X509V3_EXT_conf_nid(nullptr, &context, nid, value.c_str()));
  must(extension != nullptr && X509_add_ext(&certificate, extension.get(), -1) == 1, "an extension");
}

CertificatePtr begin_certificate(EVP_PKEY& key) {
  constexpr long kVersion3 = 2;
  CertificatePtr certificate(X509_new());
  must(certificate != nullptr && X509_set_version(certificate.get(), kVersion3) == 1 &&
           X509_set_pubkey(certificate.get(), &key) == 1,
       "a certificate");
  set_serial(*certificate);
  return certificate;
}

void sign(X509& certificate, const X509& issuer, EVP_PKEY& key) {
  must(X509_set_issuer_name(&certificate, X509_get_subject_name(&issuer)) == 1 &&
           X509_sign(&certificate, &key, EVP_sha256()) > 0,
       "a signature");
}

/// "garden" of "garden.local"; an authority of a machine without a name of its own is called of "this home".
std::string machine_title() {
  const std::string name = detail::local_name();
  constexpr std::size_t kRoom = 40;  // A common name has 64 characters.
  return name.empty() ? "this home" : name.substr(0, std::min(kRoom, name.find('.')));
}

Authority new_authority(std::chrono::sys_seconds begin) {
  KeyPtr key = new_key();
  CertificatePtr certificate = begin_certificate(*key);
  set_life(*certificate, begin, begin + kAuthorityLife - std::chrono::seconds(1));
  set_subject(*certificate, "Home authority of " + machine_title());
  add_extension(*certificate, *certificate, NID_basic_constraints, "critical,CA:TRUE,pathlen:0");
  add_extension(*certificate, *certificate, NID_key_usage, "critical,keyCertSign");
  add_extension(*certificate, *certificate, NID_name_constraints, kHomeOnly);
  add_extension(*certificate, *certificate, NID_subject_key_identifier, "hash");
  sign(*certificate, *certificate, *key);
  return {std::move(certificate), std::move(key), true};
}

CertificatePtr server_certificate(const Authority& authority, EVP_PKEY& key,
                                  const std::vector<std::string>& hosts, std::chrono::sys_seconds begin) {
  CertificatePtr certificate = begin_certificate(key);
  const auto end =
      std::min(begin + kServerLife - std::chrono::seconds(1), detail::end_of(*authority.certificate));
  set_life(*certificate, begin, end);
  set_subject(*certificate, "Garden server " + machine_title());
  std::string names;
  for (const std::string& host : hosts) {
    names += names.empty() ? "" : ",";
    names += (detail::parse_address(host) ? "IP:" : "DNS:") + host;
  }
  X509& issuer = *authority.certificate;
  add_extension(*certificate, issuer, NID_basic_constraints, "critical,CA:FALSE");
  add_extension(*certificate, issuer, NID_key_usage, "critical,digitalSignature");
  add_extension(*certificate, issuer, NID_ext_key_usage, "serverAuth");
  add_extension(*certificate, issuer, NID_subject_alt_name, names);
  add_extension(*certificate, issuer, NID_subject_key_identifier, "hash");
  add_extension(*certificate, issuer, NID_authority_key_identifier, "keyid:always");
  sign(*certificate, issuer, *authority.key);
  return certificate;
}

bool is_of_a_home(const std::string& host) {
  if (const auto address = detail::parse_address(host)) return detail::is_private_address(*address);
  return detail::is_host_name(host) && (host == "localhost" || host.ends_with(".local"));
}

/// In lower case, each once; refuses what the authority may not sign for.
base::Result<std::vector<std::string>> checked_hosts(const std::vector<std::string>& hosts) {
  std::vector<std::string> checked;
  for (const std::string& each : hosts) {
    const std::string host = detail::lower_case(detail::trimmed(each));
    if (!is_of_a_home(host)) {
      return base::fail(
          ProblemCode::out_of_range, fmt::format("\"{}\" is not of a home network", host.substr(0, 80)),
          {.field = "--host"},
          "Give an IPv4 address of 10/8, 172.16/12, 192.168/16, 169.254/16 or 127/8, \"localhost\", or a "
          "name that ends in \".local\": the authority may sign for no other");
    }
    if (std::find(checked.begin(), checked.end(), host) == checked.end()) checked.push_back(host);
  }
  return checked;
}

base::Result<Authority> read_authority(const MadeCertificate& files, std::chrono::sys_seconds now) {
  const auto certificate_text = base::read_file(files.authority_file, kMostFileBytes);
  if (!certificate_text) return tl::unexpected(certificate_text.error());
  const auto key_text = base::read_file(files.authority_key_file, kMostFileBytes);
  if (!key_text) return tl::unexpected(key_text.error());
  Authority authority{detail::certificate_from(*certificate_text), detail::key_from(*key_text)};
  constexpr const char* kElsewhere = "Mend it, or make a new authority in another directory";
  if (!authority.certificate)
    return base::fail(ProblemCode::syntax, "holds no certificate in PEM form", {.file = files.authority_file},
                      kElsewhere);
  if (!authority.key)
    return base::fail(ProblemCode::syntax, "holds no private key in PEM form",
                      {.file = files.authority_key_file}, kElsewhere);
  const bool fits = X509_check_private_key(authority.certificate.get(), authority.key.get()) == 1;
  ERR_clear_error();
  if (!fits)
    return base::fail(ProblemCode::contradiction, "is not the key of authority.pem",
                      {.file = files.authority_key_file}, kElsewhere);
  if (X509_check_ca(authority.certificate.get()) != 1)
    return base::fail(ProblemCode::contradiction, "is not an authority", {.file = files.authority_file},
                      kElsewhere);
  if (detail::end_of(*authority.certificate) > now) return authority;
  return base::fail(ProblemCode::out_of_range, "the authority has run out", {.file = files.authority_file},
                    "Make a new one in another directory, and let the phones trust that instead");
}

/// The authority of the directory, or a new one where there is none; half of one is not touched.
base::Result<Authority> authority_of(const MadeCertificate& files, std::chrono::sys_seconds now) {
  std::error_code unseen;
  const bool has_certificate =
      std::filesystem::exists(std::filesystem::symlink_status(files.authority_file, unseen));
  const bool has_key =
      std::filesystem::exists(std::filesystem::symlink_status(files.authority_key_file, unseen));
  if (has_certificate && has_key) return read_authority(files, now);
  if (!has_certificate && !has_key) {
    Authority made = new_authority(now - std::chrono::days(1));
    auto kept =
        base::write_file(files.authority_key_file, detail::pem_of(*made.key), base::Readers::owner);
    if (kept) kept = base::write_file(files.authority_file, detail::pem_of(*made.certificate));
    if (!kept) return tl::unexpected(kept.error());
    return made;
  }
  return base::fail(ProblemCode::contradiction,
                    fmt::format("is there without {}", has_key ? "authority.pem" : "authority-key.pem"),
                    {.file = has_key ? files.authority_key_file : files.authority_file},
                    "Put the other file back, or make a new authority in another directory");
}

std::string sha256_of(const X509& certificate) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned length = 0;
  must(X509_digest(&certificate, EVP_sha256(), digest.data(), &length) == 1, "a digest");
  return fmt::format("{:02X}", fmt::join(digest.begin(), digest.begin() + length, ":"));
}

base::Date last_whole_day(const X509& certificate) {
  return std::chrono::floor<std::chrono::days>(detail::end_of(certificate)) - base::Days{1};
}

base::Result<void> make_directory(const std::string& directory) {
  std::error_code error;
  std::filesystem::create_directories(directory, error);
  if (!error && std::filesystem::is_directory(directory, error)) return {};
  return base::fail(ProblemCode::storage, fmt::format("cannot be made ({})", error.message()),
                    {.file = directory}, "Give a directory that may be written to");
}

}  // namespace

std::vector<std::string> own_hosts() {
  std::vector<std::string> hosts{"localhost", "127.0.0.1"};
  if (std::string name = detail::local_name(); !name.empty()) hosts.push_back(std::move(name));
  for (std::string& address : detail::home_addresses()) hosts.push_back(std::move(address));
  return hosts;
}

base::Result<MadeCertificate> make_certificate(const CertificateOptions& options) {
  auto hosts = checked_hosts(options.hosts);
  if (!hosts) return tl::unexpected(hosts.error());
  if (auto made = make_directory(options.directory); !made) return tl::unexpected(made.error());
  const auto in = [&](const char* name) {
    return (std::filesystem::path(options.directory) / name).string();
  };
  MadeCertificate made;
  made.authority_file = in("authority.pem");
  made.authority_key_file = in("authority-key.pem");
  made.certificate_file = in("server.pem");
  made.key_file = in("server-key.pem");
  made.hosts = std::move(*hosts);
  const auto now = std::chrono::floor<std::chrono::seconds>(options.now);
  const auto authority = authority_of(made, now);
  if (!authority) return tl::unexpected(authority.error());
  const KeyPtr key = new_key();
  const CertificatePtr certificate =
      server_certificate(*authority, *key, made.hosts, now - std::chrono::days(1));
  auto kept = base::write_file(made.key_file, detail::pem_of(*key), base::Readers::owner);
  if (kept) kept = base::write_file(made.certificate_file, detail::pem_of(*certificate));
  if (!kept) return tl::unexpected(kept.error());
  made.new_authority = authority->is_new;
  made.authority_last_day = last_whole_day(*authority->certificate);
  made.certificate_last_day = last_whole_day(*certificate);
  made.authority_sha256 = sha256_of(*authority->certificate);
  return made;
}

}  // namespace sowtide::serve
