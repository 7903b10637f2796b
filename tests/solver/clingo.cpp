// SPDX-License-Identifier: GPL-3.0-or-later
#include "clingo.h"

#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

namespace tinwright::test {

namespace {

constexpr int kSeconds = 10;  // what takes longer is not answered

constexpr const char* kOrders = R"(
{ do(S,T) : stroke(S) } 1 :- time(T).
formed(B,T+1) :- formed(B,T), time(T).
formed(B,T+1) :- do(S,T), folds(S,B).
:- do(S,T), folds(S,B), formed(B,T).
holds(K,T) :- ban(K), time(T), formed(B,T) : wants(K,B); not formed(B,T) : flat(K,B).
:- do(S,T), bans(K,S), holds(K,T).
:- time(T), time(T+1), do(_,T+1), not do(_,T).
:- bend(B), last(T), not formed(B,T).
#show.
)";

constexpr const char* kBest = R"(
{ take(A) : arc(A,N,_,_,_,_,_) } 1 :- at(N), not goal(N).
:- at(N), not goal(N), not take(A) : arc(A,N,_,_,_,_,_).
at(0).
at(M) :- take(A), arc(A,_,M,_,_,_,_).
tight :- take(A), arc(A,_,_,_,_,_,1).
always. % keeps every level in what is printed
#minimize { S@6,A : take(A), spoils(A,S,_); 1@6 : always }.
#minimize { M@5,A : take(A), spoils(A,_,M); 1@5 : always }.
#minimize { 1@4,t : tight; 1@4 : always }.
#minimize { C@3,A : take(A), arc(A,_,_,C,_,_,_); 1@3 : always }.
#minimize { L@2,A : take(A), arc(A,_,_,_,L,_,_); 1@2 : always }.
#minimize { P@1,A : take(A), arc(A,_,_,_,_,P,_); 1@1 : always }.
#show.
)";

template <class Visit>
void eachBend(BendMask bends, Visit visit) {
    for (int b = 0; bends != 0; ++b, bends >>= 1) {
        if ((bends & 1) != 0) visit(b);
    }
}

/// What clingo prints for a program.
std::string solved(const std::string& program) {
    char name[] = "/tmp/tinwright-solver-XXXXXX";
    const int file = mkstemp(name);
    if (file < 0) throw std::runtime_error("no temporary file");
    close(file);
    std::ofstream(name) << program;
    std::FILE* pipe = popen(
        (std::string(TINWRIGHT_CLINGO) + " --verbose=1 --time-limit=" + std::to_string(kSeconds) + " " + name + " 2>&1")
            .c_str(),
        "r");
    if (pipe == nullptr) throw std::runtime_error("clingo cannot be run");
    std::string text;
    char buffer[4096];
    while (const std::size_t got = std::fread(buffer, 1, sizeof buffer, pipe)) text.append(buffer, got);
    pclose(pipe);
    unlink(name);
    return text;
}

}  // namespace

std::optional<bool> clingoAdmits(const ConstraintProblem& problem) {
    std::ostringstream out;
    int left = 0;
    for (std::size_t b = 0; b < problem.bends; ++b) {
        out << "bend(" << b << ").\n";
        if ((problem.formed >> b & 1) != 0) out << "formed(" << b << ",0).\n";
        left += (problem.formed >> b & 1) != 0 ? 0 : 1;
    }
    for (int t = 0; t < left; ++t) out << "time(" << t << ").\n";
    out << "last(" << left << ").\n";
    for (std::size_t s = 0; s < problem.strokes.size(); ++s) {
        out << "stroke(" << s << ").\n";
        eachBend(problem.strokes[s].bends, [&](int b) { out << "folds(" << s << "," << b << ").\n"; });
    }
    for (std::size_t k = 0; k < problem.bans.size(); ++k) {
        out << "ban(" << k << ").\n";
        for (const std::uint32_t s : problem.bans[k].strokes) out << "bans(" << k << "," << s << ").\n";
        eachBend(problem.bans[k].formed, [&](int b) { out << "wants(" << k << "," << b << ").\n"; });
        eachBend(problem.bans[k].flat, [&](int b) { out << "flat(" << k << "," << b << ").\n"; });
    }
    const std::string answer = solved(out.str() + kOrders);
    if (answer.find("UNSATISFIABLE") != std::string::npos) return false;
    if (answer.find("SATISFIABLE") != std::string::npos) return true;
    if (answer.find("TIME LIMIT") != std::string::npos) return std::nullopt;
    throw std::runtime_error("clingo did not answer: " + answer);
}

std::optional<std::array<std::int64_t, 6>> clingoBest(const ConstraintProblem& problem) {
    std::ostringstream out;
    const BendMask all = (BendMask{1} << problem.bends) - 1;
    for (std::size_t n = 0; n < problem.nodes.size(); ++n) {
        if (problem.nodes[n].formed == all) out << "goal(" << n << ").\n";
    }
    for (std::size_t a = 0; a < problem.arcs.size(); ++a) {
        const ConstraintProblem::Arc& arc = problem.arcs[a];
        out << "arc(" << a << "," << arc.from << "," << arc.to << "," << arc.cost.time_ms << ","
            << arc.cost.larger_behind << "," << arc.cost.pieces << "," << (arc.cost.tight ? 1 : 0) << ").\n";
        out << "spoils(" << a << "," << arc.cost.spoils.surely << "," << arc.cost.spoils.maybe << ").\n";
    }
    const std::string answer = solved(out.str() + kBest);
    if (answer.find("TIME LIMIT") != std::string::npos) return std::nullopt;
    if (answer.find("OPTIMUM FOUND") == std::string::npos)
        throw std::runtime_error("clingo found no optimum: " + answer);
    const std::size_t last = answer.rfind("Optimization :");
    std::istringstream numbers(answer.substr(last + std::string("Optimization :").size()));
    std::array<std::int64_t, 6> best{};
    for (std::int64_t& value : best) numbers >> value;
    for (std::int64_t& value : best) --value;  // of `always`
    return best;
}

}  // namespace tinwright::test
