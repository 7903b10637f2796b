// SPDX-License-Identifier: GPL-3.0-or-later
#include "schema_check.h"

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wsign-conversion"
#endif
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include <fstream>
#include <map>
#include <memory>

namespace tinwright::test {

namespace {

class ParsedSchema {
public:
    explicit ParsedSchema(const std::string& name) {
        std::ifstream file(TINWRIGHT_SOURCE_DIR "/src/io/schema/" + name + ".schema.json");
        json_ = nlohmann::json::parse(file);
        const valijson::adapters::NlohmannJsonAdapter adapter(json_);
        valijson::SchemaParser().populateSchema(adapter, schema_);
    }
    [[nodiscard]] const valijson::Schema& schema() const { return schema_; }

private:
    nlohmann::json json_;
    valijson::Schema schema_;
};

const valijson::Schema& schemaNamed(const std::string& name) {
    static std::map<std::string, std::unique_ptr<const ParsedSchema>> known;
    std::unique_ptr<const ParsedSchema>& entry = known[name];
    if (!entry) entry = std::make_unique<const ParsedSchema>(name);
    return entry->schema();
}

}  // namespace

std::string schemaComplaints(const nlohmann::json& document, const std::string& name) {
    const valijson::adapters::NlohmannJsonAdapter adapter(document);
    valijson::ValidationResults results;
    valijson::Validator(valijson::Validator::kStrongTypes).validate(schemaNamed(name), adapter, &results);
    std::string text;
    for (valijson::ValidationResults::Error error; results.popError(error);) {
        for (const std::string& step : error.context) text += step;
        text += ": " + error.description + "\n";
    }
    return text;
}

}  // namespace tinwright::test
