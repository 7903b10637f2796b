// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/json/json_reading.h>

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

#include <algorithm>
#include <functional>
#include <map>
#include <memory>

#include <tinwright/io/json/json_cursor.h>

#include "json/schema_texts.h"

namespace tinwright {

namespace {

struct SchemaError {
    std::string place;
    std::string words;
};

// The validator says a place as "<root>", `["key"]`, "[3]".
std::string pointerFrom(const std::vector<std::string>& context) {
    std::string pointer;
    for (const std::string& step : context) {
        if (step.size() < 3 || step.front() != '[') continue;
        const bool is_key = step[1] == '"';
        const std::size_t skip = is_key ? 2 : 1;
        pointer = pointerTo(pointer, std::string_view(step).substr(skip, step.size() - 2 * skip));
    }
    return pointer;
}

class ParsedSchema {
public:
    explicit ParsedSchema(std::string_view text) : json_(nlohmann::json::parse(text.begin(), text.end())) {
        const valijson::adapters::NlohmannJsonAdapter adapter(json_);
        valijson::SchemaParser().populateSchema(adapter, schema_);
    }
    [[nodiscard]] const valijson::Schema& schema() const { return schema_; }

private:
    nlohmann::json json_;
    valijson::Schema schema_;
};

// Parsed once on each thread: a shop is many files of few kinds.
const valijson::Schema& parsed(std::string_view schema_text) {
    static thread_local std::map<std::string, std::unique_ptr<const ParsedSchema>, std::less<>> known;
    auto entry = known.find(schema_text);
    if (entry == known.end())
        entry = known.emplace(schema_text, std::make_unique<const ParsedSchema>(schema_text)).first;
    return entry->second->schema();
}

std::vector<SchemaError> validate(const nlohmann::json& document, std::string_view schema_text) {
    const valijson::adapters::NlohmannJsonAdapter adapter(document);
    valijson::ValidationResults results;
    valijson::Validator(valijson::Validator::kStrongTypes).validate(parsed(schema_text), adapter, &results);
    std::vector<SchemaError> errors;
    for (valijson::ValidationResults::Error error; results.popError(error);) {
        errors.push_back({pointerFrom(error.context), error.description});
    }
    return errors;
}

// A container's error is only the echo of one inside it.
bool isEcho(const SchemaError& error, const std::vector<SchemaError>& all) {
    return std::any_of(all.begin(), all.end(), [&](const SchemaError& other) {
        return other.place.size() > error.place.size() && isAtOrAbove(error.place, other.place);
    });
}

std::string foundAt(const nlohmann::json& document, const std::string& place) {
    const nlohmann::json::json_pointer pointer(place);
    return document.contains(pointer) ? foundText(document.at(pointer)) : "nothing";
}

}  // namespace

std::string_view schemaText(std::string_view name) {
    const auto& texts = schemaTexts();
    const auto it = std::find_if(texts.begin(), texts.end(), [&](const SchemaText& text) { return text.name == name; });
    TINWRIGHT_REQUIRE(it != texts.end(), "there is a schema of this name");
    return it->text;
}

void addSchemaIssues(const nlohmann::json& document, std::string_view schema, ReadContext& context) {
    const std::vector<SchemaError> errors = validate(document, schema);
    for (const SchemaError& error : errors) {
        const bool said = std::any_of(context.issues.begin(), context.issues.end(), [&](const Issue& issue) {
            return isAtOrAbove(issue.place, error.place) || isAtOrAbove(error.place, issue.place);
        });
        if (said || isEcho(error, errors)) continue;
        context.report(error.place, "schema", foundAt(document, error.place), "what the schema allows", error.words);
    }
}

}  // namespace tinwright
