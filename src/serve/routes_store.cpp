#include "desk/store.hpp"
#include "desk/table.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {

void add_store_routes(const RouteContext& context) {
  context.server.route("GET", "/api/store", [context](const Request&) {
    return context.garden.answer("store",
                                 [](const desk::Season& season) { return desk::store_json(season); });
  });
  context.server.route("GET", "/api/table", [context](const Request&) {
    return context.garden.answer("table",
                                 [](const desk::Season& season) { return desk::table_json(season); });
  });
}

}  // namespace sowtide::serve::detail
