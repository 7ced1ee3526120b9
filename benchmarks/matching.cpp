// Minimum-weight perfect matching by LEMON: reads "n m" and m lines "a b weight", prints seconds of each run and the total.
#include <lemon/matching.h>
#include <lemon/smart_graph.h>

#include <chrono>
#include <cstdio>
#include <vector>

int main(int argc, char **argv) {
  int n, m, runs = argc > 1 ? std::atoi(argv[1]) : 5;
  if (std::scanf("%d %d", &n, &m) != 2) return 2;
  lemon::SmartGraph graph;
  std::vector<lemon::SmartGraph::Node> nodes(n);
  for (auto &node : nodes) node = graph.addNode();
  lemon::SmartGraph::EdgeMap<long long> weight(graph);
  for (int i = 0; i < m; i++) {
    int a, b;
    long long w;
    if (std::scanf("%d %d %lld", &a, &b, &w) != 3) return 2;
    weight[graph.addEdge(nodes[a], nodes[b])] = -w;
  }
  for (int run = 0; run < runs; run++) {
    const auto began = std::chrono::steady_clock::now();
    lemon::MaxWeightedPerfectMatching<lemon::SmartGraph, lemon::SmartGraph::EdgeMap<long long>> matching(graph, weight);
    if (!matching.run()) return 3;
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
    std::printf("%.6f %lld\n", took.count(), -matching.matchingWeight());
  }
}
