using NodaTime;
using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Scheduling;

/// <summary>The energy that a trip needs at departure so as to come home with the minimum, at the stated confidence. [kWh]</summary>
/// <remarks>Backward from the return, where it is the minimum: a leg adds its energy times the factor, a charging stop takes off what it
/// can give, and the need is never below the minimum.</remarks>
internal static class TripNeed
{
    /// <summary>Of a trip that lies on the intervals between two boundaries.</summary>
    public static double Of(
        AwaySpan[] spans, Instant[] boundaries, int from, int until, double[] hours, double[] net, double factor, double minimum)
    {
        var need = minimum;
        var at = spans.Length - 1;
        for (var i = until - 1; i >= from; i--)
        {
            while (spans[at].Start > boundaries[i])
            {
                at--;
            }

            need = spans[at].Place == Place.Road
                ? need + (spans[at].NeedKwh(factor) * (hours[i] / spans[at].Hours))
                : Math.Max(minimum, need - (net[i] * hours[i]));
        }

        return need;
    }

    /// <summary>Of a trip that begins at the end of the horizon, beyond the last interval.</summary>
    public static double Beyond(AwaySpan[] spans, ChargingCase question, double factor, double minimum)
    {
        var need = minimum;
        foreach (var span in spans.Reverse())
        {
            if (span.Place == Place.Road)
            {
                need += span.NeedKwh(factor);
                continue;
            }

            Instant[] cuts = [span.Start, .. question.Temperatures.ChangesWithin(span.Start, span.End), span.End];
            for (var c = cuts.Length - 2; c >= 0; c--)
            {
                var rate = ChargingModel.NetRateKw(span.WallKw, question.Temperatures.At(cuts[c]), question.Vehicle.Constants);
                need = Math.Max(minimum, need - (rate * (cuts[c + 1] - cuts[c]).TotalHours));
            }
        }

        return need;
    }
}
