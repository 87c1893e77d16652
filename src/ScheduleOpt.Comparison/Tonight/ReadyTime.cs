using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>When a departure's energy is reached, or would be if the car stayed and charged on.</summary>
internal static class ReadyTime
{
    // Beyond this the answer is 'not with this supply'.
    private static readonly Duration Patience = Duration.FromDays(7);
    private static readonly Duration Step = Duration.FromMinutes(5);

    public static Instant? Of(ChargingCase question, ChargingProblem problem, ReplayResult replay, int k)
    {
        var departure = problem.Departures[k];
        var required = departure.RequiredKwh - NightPlanner.NegligibleKwh;
        if (replay.StoredKwh[departure.Boundary] >= required)
        {
            return Reached(problem, replay, departure.Boundary, required);
        }

        return question.Supply is null ? null : ChargingOn(question, problem, replay.StoredKwh[departure.Boundary], departure.Boundary, required);
    }

    /// <summary>Back from the departure to where the energy was last below what is required.</summary>
    private static Instant Reached(ChargingProblem problem, ReplayResult replay, int boundary, double required)
    {
        var b = boundary;
        while (b > 0 && replay.StoredKwh[b - 1] >= required && problem.Place[b - 1] == Place.Home)
        {
            b--;
        }

        if (b == 0 || problem.Place[b - 1] != Place.Home)
        {
            return problem.Boundaries[b];
        }

        var gained = replay.StoredKwh[b] - replay.StoredKwh[b - 1];
        var part = gained <= 0 ? 1 : (required - replay.StoredKwh[b - 1]) / gained;
        var seconds = Math.Ceiling(problem.Hours[b - 1] * 3600 * Math.Clamp(part, 0, 1));
        return Instant.Min(problem.Boundaries[b], problem.Boundaries[b - 1] + Duration.FromSeconds(seconds));
    }

    private static Instant? ChargingOn(ChargingCase question, ChargingProblem problem, double stored, int boundary, double required)
    {
        var power = question.Supply!.ChargingPower(question.Vehicle).Kilowatts;
        var at = problem.Boundaries[boundary];
        for (var until = at + Patience; at < until; at += Step)
        {
            var rate = ChargingModel.NetRateKw(power, question.Temperatures.At(at), problem.Constants);
            var accepted = Math.Min(rate, ChargingModel.TaperKw(stored, problem.UsableKwh, Step.TotalHours, problem.Constants));
            var after = stored + (accepted * Step.TotalHours);
            if (after >= required)
            {
                return at + Duration.FromSeconds(Math.Ceiling(Step.TotalSeconds * (required - stored) / (after - stored)));
            }

            stored = after;
        }

        return null;
    }
}
