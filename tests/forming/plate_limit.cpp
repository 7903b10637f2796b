// SPDX-License-Identifier: GPL-3.0-or-later
#include "plate_limit.h"

#include <algorithm>
#include <array>
#include <map>

#include <glpk.h>

#include <Eigen/Dense>

namespace tinwright::test {

namespace {

using Vec2 = Eigen::Vector2d;

struct Mesh {
    std::vector<Vec2> nodes;
    std::vector<std::array<int, 3>> triangles;
};

bool isWindow(const PlateProblem& problem, int column, int row) {
    return std::any_of(problem.windows.begin(), problem.windows.end(), [&](const CellWindow& w) {
        return column >= w.left && column < w.right && row >= w.low && row < w.high;
    });
}

/// Every cell in four triangles round its middle, so that hinges may run along it, across it and over both diagonals.
Mesh meshOf(const PlateProblem& problem) {
    Mesh mesh;
    const int across = problem.columns + 1;
    for (int row = 0; row <= problem.rows; ++row) {
        for (int column = 0; column < across; ++column)
            mesh.nodes.emplace_back(column * problem.cell_mm, row * problem.cell_mm);
    }
    for (int row = 0; row < problem.rows; ++row) {
        for (int column = 0; column < problem.columns; ++column) {
            if (isWindow(problem, column, row)) continue;
            const int a = row * across + column;
            const std::array<int, 4> corners{a, a + 1, a + across + 1, a + across};
            const int middle = static_cast<int>(mesh.nodes.size());
            mesh.nodes.emplace_back((column + 0.5) * problem.cell_mm, (row + 0.5) * problem.cell_mm);
            for (std::size_t i = 0; i < 4; ++i) mesh.triangles.push_back({corners[i], corners[(i + 1) % 4], middle});
        }
    }
    return mesh;
}

/// Slope across a line of unit normal `normal`, as factors of the deflections of a triangle's corners.
std::array<double, 3> slope(const Mesh& mesh, const std::array<int, 3>& triangle, const Vec2& normal) {
    std::array<double, 3> factors{};
    const auto at = [&](std::size_t i) { return mesh.nodes[static_cast<std::size_t>(triangle[i % 3])]; };
    const Vec2 ab = at(1) - at(0);
    const Vec2 ac = at(2) - at(0);
    const double twice_area = ab.x() * ac.y() - ab.y() * ac.x();
    for (std::size_t i = 0; i < 3; ++i) {
        const Vec2 opposite = at(i + 2) - at(i + 1);
        factors[i] = Vec2(-opposite.y(), opposite.x()).dot(normal) / twice_area;
    }
    return factors;
}

struct Hinge {
    std::map<int, double> turn;  ///< by node
    double moment = 0;           ///< plastic moment of its whole length
};

void addSlope(const Mesh& mesh, const std::array<int, 3>& triangle, const Vec2& normal, double sign,
              std::map<int, double>& turn) {
    const auto factors = slope(mesh, triangle, normal);
    for (std::size_t i = 0; i < 3; ++i) turn[triangle[i]] += sign * factors[i];
}

std::vector<Hinge> hingesOf(const PlateProblem& problem, const Mesh& mesh) {
    std::map<std::pair<int, int>, std::vector<std::size_t>> sharing;
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        for (std::size_t i = 0; i < 3; ++i) {
            const auto [low, high] = std::minmax(mesh.triangles[t][i], mesh.triangles[t][(i + 1) % 3]);
            sharing[{low, high}].push_back(t);
        }
    }
    std::vector<Hinge> hinges;
    for (const auto& [edge, triangles] : sharing) {
        const Vec2 from = mesh.nodes[static_cast<std::size_t>(edge.first)];
        const Vec2 along = mesh.nodes[static_cast<std::size_t>(edge.second)] - from;
        const bool bend = from.y() == 0 && along.y() == 0;
        if (triangles.size() == 1 && !bend) continue;  // a free edge
        const Vec2 normal = Vec2(-along.y(), along.x()).normalized();
        Hinge hinge;
        addSlope(mesh, mesh.triangles[triangles[0]], normal, 1, hinge.turn);
        if (triangles.size() == 2) addSlope(mesh, mesh.triangles[triangles[1]], normal, -1, hinge.turn);
        hinge.moment = (bend ? problem.bend_moment : problem.plate_moment) * along.norm();
        hinges.push_back(hinge);
    }
    return hinges;
}

/// Load for each node of the edge where the leaf bears, 1 altogether.
std::map<int, double> loadOf(const PlateProblem& problem) {
    std::map<int, double> load;
    for (int column = 0; column <= problem.columns; ++column) {
        const double share = column == 0 || column == problem.columns ? 0.5 : 1.0;
        load[problem.rows * (problem.columns + 1) + column] = share / problem.columns;
    }
    return load;
}

/// Least work of the hinges for a mechanism on which the load does the work 1.
double leastWork(const Mesh& mesh, const std::vector<Hinge>& hinges, const std::map<int, double>& load) {
    glp_prob* programme = glp_create_prob();
    glp_term_out(GLP_OFF);
    const int nodes = static_cast<int>(mesh.nodes.size());
    const int count = static_cast<int>(hinges.size());
    glp_add_cols(programme, nodes + 2 * count);
    for (int i = 0; i < nodes; ++i) {
        const bool held = mesh.nodes[static_cast<std::size_t>(i)].y() == 0;
        glp_set_col_bnds(programme, i + 1, held ? GLP_FX : GLP_FR, 0, 0);
    }
    glp_add_rows(programme, count + 1);
    const auto setRow = [&](int row, const std::map<int, double>& factors, int plus) {
        std::vector<int> index{0};
        std::vector<double> value{0};
        for (const auto& [node, factor] : factors) index.push_back(node + 1), value.push_back(factor);
        if (plus > 0) index.insert(index.end(), {plus, plus + 1}), value.insert(value.end(), {-1.0, 1.0});
        glp_set_mat_row(programme, row, static_cast<int>(index.size()) - 1, index.data(), value.data());
    };
    for (int i = 0; i < count; ++i) {
        const int plus = nodes + 2 * i + 1;
        for (const int column : {plus, plus + 1}) {
            glp_set_col_bnds(programme, column, GLP_LO, 0, 0);
            glp_set_obj_coef(programme, column, hinges[static_cast<std::size_t>(i)].moment);
        }
        setRow(i + 1, hinges[static_cast<std::size_t>(i)].turn, plus);
        glp_set_row_bnds(programme, i + 1, GLP_FX, 0, 0);
    }
    setRow(count + 1, load, 0);
    glp_set_row_bnds(programme, count + 1, GLP_FX, 1, 1);
    glp_smcp options;
    glp_init_smcp(&options);
    options.presolve = GLP_ON;
    glp_set_obj_dir(programme, GLP_MIN);
    const int failed = glp_simplex(programme, &options);
    const double work = failed == 0 && glp_get_status(programme) == GLP_OPT ? glp_get_obj_val(programme) : -1;
    glp_delete_prob(programme);
    return work;
}

}  // namespace

double collapseFactor(const PlateProblem& problem) {
    const Mesh mesh = meshOf(problem);
    const double force = leastWork(mesh, hingesOf(problem, mesh), loadOf(problem));
    const double bend_force = problem.bend_moment * problem.columns / problem.rows;  // moment of the bend line over the
                                                                                     // depth
    return force / bend_force;
}

}  // namespace tinwright::test
