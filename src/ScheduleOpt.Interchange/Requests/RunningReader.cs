using NodaTime;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>running</c>: how a car may run while it charges.</summary>
internal static class RunningReader
{
    // A window of a quarter of an hour, all day long: more windows than this are no limit.
    private const int MostWindows = 96;

    private static readonly Limits Minutes = new(0, 240, "min") { Whole = true };

    /// <summary>Reads the rules; what is not given, or faulty, is as in <paramref name="otherwise"/>.</summary>
    public static RunningRules Read(JsonField? field, RunningRules otherwise)
    {
        if (field?.Members("adjustable", "wholeAmperes", "mostWindows", "leastOnMinutes", "leastOffMinutes") is not { } rules)
        {
            return otherwise;
        }

        return new RunningRules
        {
            Adjustable = rules.Optional("adjustable")?.Flag() ?? otherwise.Adjustable,
            WholeAmperes = rules.Optional("wholeAmperes")?.Flag() ?? otherwise.WholeAmperes,
            MostWindows = (int?)rules.Optional("mostWindows")?.Number(new(1, MostWindows) { Whole = true }) ?? otherwise.MostWindows,
            LeastOn = Length(rules, "leastOnMinutes", otherwise.LeastOn),
            LeastOff = Length(rules, "leastOffMinutes", otherwise.LeastOff),
        };
    }

    private static Duration Length(JsonMembers rules, string name, Duration otherwise) =>
        Duration.FromMinutes((long)rules.Number(name, Minutes, otherwise.TotalMinutes));
}
