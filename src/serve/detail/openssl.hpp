// Ownership of OpenSSL's objects, and PEM to and from them.
#pragma once

#include <openssl/bio.h>
#include <openssl/bn.h>
#include <openssl/evp.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <chrono>
#include <memory>
#include <string>
#include <string_view>

namespace sowtide::serve::detail {

/// Calls an OpenSSL function that frees.
template <auto free>
struct Freer {
  template <class T>
  void operator()(T* object) const noexcept {
    free(object);
  }
};

using CertificatePtr = std::unique_ptr<X509, Freer<X509_free>>;
using KeyPtr = std::unique_ptr<EVP_PKEY, Freer<EVP_PKEY_free>>;
using BioPtr = std::unique_ptr<BIO, Freer<BIO_free_all>>;
using NumberPtr = std::unique_ptr<BIGNUM, Freer<BN_free>>;
using ExtensionPtr = std::unique_ptr<X509_EXTENSION, Freer<X509_EXTENSION_free>>;
using NamesPtr = std::unique_ptr<GENERAL_NAMES, Freer<GENERAL_NAMES_free>>;

/// The first certificate of a PEM text; null when there is none that can be read.
[[nodiscard]] CertificatePtr certificate_from(std::string_view pem);
/// The first private key of a PEM text that no password protects; null when there is none.
[[nodiscard]] KeyPtr key_from(std::string_view pem);
[[nodiscard]] std::string pem_of(const X509& certificate);
[[nodiscard]] std::string pem_of(const EVP_PKEY& key);

/// The bounds of a certificate's life; the epoch when they cannot be read.
[[nodiscard]] std::chrono::sys_seconds begin_of(const X509& certificate);
[[nodiscard]] std::chrono::sys_seconds end_of(const X509& certificate);

}  // namespace sowtide::serve::detail
