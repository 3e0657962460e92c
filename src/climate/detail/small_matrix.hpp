// Solving and factoring the few small dense systems of this room (3 x 3 and 13 x 13).
#pragma once

#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <utility>

namespace sowtide::climate::detail {

template <std::size_t Rows, std::size_t Columns>
using Matrix = std::array<std::array<double, Columns>, Rows>;

template <std::size_t N, std::size_t K, std::size_t M>
[[nodiscard]] Matrix<N, M> product(const Matrix<N, K>& a, const Matrix<K, M>& b) {
  Matrix<N, M> result{};
  for (std::size_t i = 0; i < N; ++i) {
    for (std::size_t k = 0; k < K; ++k) {
      for (std::size_t j = 0; j < M; ++j) result[i][j] += a[i][k] * b[k][j];
    }
  }
  return result;
}

template <std::size_t N, std::size_t M>
[[nodiscard]] Matrix<M, N> transposed(const Matrix<N, M>& a) {
  Matrix<M, N> result{};
  for (std::size_t i = 0; i < N; ++i) {
    for (std::size_t j = 0; j < M; ++j) result[j][i] = a[i][j];
  }
  return result;
}

/// Solves a x = b by elimination with partial pivoting; `a` must be regular.
template <std::size_t N, std::size_t M>
[[nodiscard]] Matrix<N, M> solve(Matrix<N, N> a, Matrix<N, M> b) {
  for (std::size_t column = 0; column < N; ++column) {
    std::size_t pivot = column;
    for (std::size_t row = column + 1; row < N; ++row) {
      if (std::abs(a[row][column]) > std::abs(a[pivot][column])) pivot = row;
    }
    std::swap(a[column], a[pivot]);
    std::swap(b[column], b[pivot]);
    assert(a[column][column] != 0.0);
    for (std::size_t row = 0; row < N; ++row) {
      if (row == column) continue;
      const double factor = a[row][column] / a[column][column];
      for (std::size_t k = column; k < N; ++k) a[row][k] -= factor * a[column][k];
      for (std::size_t k = 0; k < M; ++k) b[row][k] -= factor * b[column][k];
    }
  }
  for (std::size_t row = 0; row < N; ++row) {
    for (std::size_t k = 0; k < M; ++k) b[row][k] /= a[row][row];
  }
  return b;
}

/// Lower triangle L with L L' = a. A pivot that is not positive (a matrix from data may just miss being
/// positive definite) is raised to `least_pivot`.
template <std::size_t N>
[[nodiscard]] Matrix<N, N> cholesky(const Matrix<N, N>& a, double least_pivot = 1e-6) {
  Matrix<N, N> lower{};
  for (std::size_t i = 0; i < N; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double rest = a[i][j];
      for (std::size_t k = 0; k < j; ++k) rest -= lower[i][k] * lower[j][k];
      lower[i][j] = i == j ? std::sqrt(rest > least_pivot ? rest : least_pivot) : rest / lower[j][j];
    }
  }
  return lower;
}

/// True when every pivot of the symmetric `a` is at least `least_pivot`.
template <std::size_t N>
[[nodiscard]] bool is_positive_definite(const Matrix<N, N>& a, double least_pivot) {
  Matrix<N, N> lower{};
  for (std::size_t i = 0; i < N; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double rest = a[i][j];
      for (std::size_t k = 0; k < j; ++k) rest -= lower[i][k] * lower[j][k];
      if (i != j) {
        lower[i][j] = rest / lower[j][j];
      } else if (rest < least_pivot) {
        return false;
      } else {
        lower[i][j] = std::sqrt(rest);
      }
    }
  }
  return true;
}

}  // namespace sowtide::climate::detail
