using NodaTime;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Checks at every instant what cars on one circuit take together. Part of <see cref="HouseholdCheck"/>.</summary>
internal static class SharedCheck
{
    private const double SameA = 1e-6;

    public static void Add(HouseholdProblem problem, IReadOnlyList<IReadOnlyList<CurrentStep>> carSteps, List<string> findings)
    {
        foreach (var circuit in problem.Circuits)
        {
            // Between two instants at which a step begins or ends, or an interval begins, nothing changes.
            var steps = circuit.Cars.SelectMany(c => carSteps[c]).ToArray();
            var instants = steps.Select(s => s.Start).Concat(problem.Boundaries[..^1]).Distinct().Order().ToArray();
            var byStart = steps.OrderBy(s => s.Start).ToArray();
            var running = new List<CurrentStep>();
            var next = 0;
            foreach (var at in instants)
            {
                running.RemoveAll(s => s.End <= at);
                for (; next < byStart.Length && byStart[next].Start <= at; next++)
                {
                    running.Add(byStart[next]);
                }

                var found = Array.BinarySearch(problem.Boundaries, at);
                var i = found >= 0 ? found : ~found - 1;
                var together = running.Where(s => s.End > at).Sum(s => s.CurrentA);
                if (together > SameA && i >= 0 && i < problem.Count && together > circuit.LeftA(i) + SameA)
                {
                    findings.Add($"At {at} the cars take {together} A of a shared circuit that has {circuit.LeftA(i)} A for them.");
                    return;
                }
            }
        }
    }
}
