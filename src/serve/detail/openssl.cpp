#include "serve/detail/openssl.hpp"

#include <openssl/err.h>
#include <openssl/pem.h>
#include <time.h>

#include <stdexcept>

namespace sowtide::serve::detail {
namespace {

BioPtr reader_of(std::string_view text) {
  return BioPtr(BIO_new_mem_buf(text.data(), static_cast<int>(text.size())));
}

/// Keeps OpenSSL from asking for a password on the terminal.
int no_password(char*, int, int, void*) {
  return -1;
}

std::string text_of(BIO& memory) {
  char* bytes = nullptr;
  const long size = BIO_get_mem_data(&memory, &bytes);
  return size > 0 ? std::string(bytes, static_cast<std::size_t>(size)) : std::string();
}

std::chrono::sys_seconds time_of(const ASN1_TIME* time) {
  tm parts{};
  if (time == nullptr || ASN1_TIME_to_tm(time, &parts) != 1) return {};
  return std::chrono::sys_seconds(std::chrono::seconds(::timegm(&parts)));
}

}  // namespace

CertificatePtr certificate_from(std::string_view pem) {
  const BioPtr bio = reader_of(pem);
  CertificatePtr certificate(PEM_read_bio_X509(bio.get(), nullptr, &no_password, nullptr));
  ERR_clear_error();
  return certificate;
}

KeyPtr key_from(std::string_view pem) {
  const BioPtr bio = reader_of(pem);
  KeyPtr key(PEM_read_bio_PrivateKey(bio.get(), nullptr, &no_password, nullptr));
  ERR_clear_error();
  return key;
}

std::string pem_of(const X509& certificate) {
  const BioPtr memory(BIO_new(BIO_s_mem()));
  if (PEM_write_bio_X509(memory.get(), &certificate) != 1)
    throw std::runtime_error("no PEM of a certificate");
  return text_of(*memory);
}

std::string pem_of(const EVP_PKEY& key) {
  const BioPtr memory(BIO_new(BIO_s_secmem()));
  if (PEM_write_bio_PKCS8PrivateKey(memory.get(), &key, nullptr, nullptr, 0, nullptr, nullptr) != 1)
    throw std::runtime_error("no PEM of a key");
  return text_of(*memory);
}

std::chrono::sys_seconds begin_of(const X509& certificate) {
  return time_of(X509_get0_notBefore(&certificate));
}

std::chrono::sys_seconds end_of(const X509& certificate) {
  return time_of(X509_get0_notAfter(&certificate));
}

}  // namespace sowtide::serve::detail
