using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>Which departures' energy can be there by the finish margin, without any departure's energy suffering for it.</summary>
/// <remarks>
/// The path that charges as early and as much as the limits let it has at every boundary the most energy that any path can have. If it has a departure's energy
/// when the margin begins, the margin can be kept; and since holding it only asks for what that path does anyway, no shortfall grows. Otherwise it
/// is given up, and with it the leave to exceed the ordinary limit that much earlier.
/// </remarks>
internal static class FinishMargins
{
    private const double SameKwh = 1e-9;

    /// <summary>The departures with their due boundaries.</summary>
    /// <param name="question">The margin asked.</param>
    /// <param name="departures">The departures, due when they leave.</param>
    /// <param name="boundaries">The grid, cut where margins begin.</param>
    /// <param name="keep">Whether each departure may have its margin; none: all.</param>
    /// <param name="mostStored">The most energy at each boundary under the limits of the departures given. [kWh]</param>
    public static DepartureTarget[] Of(
        ChargingCase question, DepartureTarget[] departures, Instant[] boundaries, bool[]? keep, Func<DepartureTarget[], double[]> mostStored)
    {
        if (question.FinishMargin <= Duration.Zero || departures.Length == 0)
        {
            return departures;
        }

        var asked = new DepartureTarget[departures.Length];
        for (var k = 0; k < asked.Length; k++)
        {
            asked[k] = keep is null || keep[k]
                ? Asked(question, departures[k], boundaries, k > 0 ? departures[k - 1].ReturnBoundary : 0)
                : GivenUp(departures[k]);
        }

        // Giving one up lowers limits, which may cost another: each round gives up one at least.
        while (true)
        {
            var most = mostStored(asked);
            var changed = false;
            for (var k = 0; k < asked.Length; k++)
            {
                if (asked[k].DueBoundary < asked[k].Boundary && most[asked[k].DueBoundary] < asked[k].RequiredKwh - SameKwh)
                {
                    asked[k] = GivenUp(asked[k]);
                    changed = true;
                }
            }

            if (!changed)
            {
                return asked;
            }
        }
    }

    /// <summary>A departure whose margin is not kept.</summary>
    public static DepartureTarget GivenUp(DepartureTarget departure) => departure with { DueBoundary = departure.Boundary, MarginKept = false };

    /// <summary>Where margins begin: further cuts of the grid.</summary>
    public static IEnumerable<Instant> Starts(ChargingCase question, IEnumerable<Instant> departures) =>
        question.FinishMargin > Duration.Zero ? departures.Select(d => d - question.FinishMargin) : [];

    private static DepartureTarget Asked(ChargingCase question, DepartureTarget departure, Instant[] boundaries, int stayStart)
    {
        var due = boundaries[departure.Boundary] - question.FinishMargin;
        if (due > boundaries[stayStart])
        {
            return departure with { DueBoundary = Array.BinarySearch(boundaries, due) };
        }

        // The stay is shorter than the margin: only what the car has from the first is there in time.
        var usable = question.Vehicle.UsableEnergy.KilowattHours;
        var has = stayStart == 0 && usable * question.PluggedInAt.Fraction >= departure.RequiredKwh;
        return has ? departure : GivenUp(departure);
    }
}
