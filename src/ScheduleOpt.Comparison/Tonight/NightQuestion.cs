using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Tonight's question: when to charge, at what current.</summary>
/// <param name="Case">Car, supply, calendar, prices, temperatures.</param>
/// <param name="Order">Which shortfall is spared first.</param>
/// <param name="Solver">How step 2 is solved.</param>
public sealed record NightQuestion(
    ChargingCase Case,
    ShortfallOrder Order = ShortfallOrder.InTimeOrder,
    SolverChoice Solver = SolverChoice.Glop);
