using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>Why each window is where it is: what a stored kWh costs in it, against the cheapest time left while the car is plugged in.</summary>
internal static class WindowReasons
{
    private const double SamePrice = 5e-4;

    public static List<WindowReason> Of(NightPlan plan, CarPlan car)
    {
        var reasons = new List<WindowReason>();
        foreach (var stay in HomeStay.Of(car.Problem))
        {
            var (start, end) = (car.Problem.Boundaries[stay.First], car.Problem.Boundaries[stay.End]);
            foreach (var window in car.Windows.Where(w => w.Start >= start && w.End <= end))
            {
                reasons.Add(new(window.Start, Reason(plan, car, stay, window) + Cold(plan, car, start, end)));
            }
        }

        return reasons;
    }

    private static string Reason(NightPlan plan, CarPlan car, HomeStay stay, ChargingWindow window)
    {
        var currency = car.Case.Prices.Currency;
        var (most, left) = (double.NegativeInfinity, double.PositiveInfinity);
        for (var i = stay.First; i < stay.End; i++)
        {
            var inside = car.Problem.Boundaries[i] < window.End && car.Problem.Boundaries[i + 1] > window.Start;
            most = inside && StoredPrice.Planned(plan, car, i) is { } used ? Math.Max(most, used) : most;
            left = StoredPrice.Left(plan, car, i) is { } free ? Math.Min(left, free) : left;
        }

        if (double.IsInfinity(most))
        {
            return "Nothing is taken in it: the car is full by then.";
        }

        var costs = $"A stored kWh costs at most {Sentences.Money(most, currency)} in it";
        return double.IsInfinity(left) ? $"{costs}; all the time in which the car can charge while it is plugged in is used."
            : left >= most - SamePrice ? $"{costs}; in the cheapest time left while the car is plugged in it would cost {Sentences.Money(left, currency)}."
            : plan.Route == SolveRoute.Shares ? $"{costs}; time at {Sentences.Money(left, currency)} is left, but the energy is due before it, or the limits of what may be stored are reached."
            : $"{costs}; time at {Sentences.Money(left, currency)} is left, but energy is due before it, or a limit of the battery, the circuit, the house or the running rules, or a charge on power or total use, makes it no better.";
    }

    private static string Cold(NightPlan plan, CarPlan car, Instant start, Instant end)
    {
        var currency = car.Case.Prices.Currency;
        var cold = car.ColdHours.Where(c => c.Start >= start && c.End <= end).ToArray();
        var dearer = cold.FirstOrDefault(c => c.Reason == ColdReason.CostsMoreOnceStored);
        return dearer is { PricePerStoredKwh: { } stored }
            ? $" Colder time at {Sentences.Money(dearer.PricePerKwh, currency)} per kWh is left though it looks cheaper: stored, a kWh would cost {Sentences.Money(stored, currency)} then; price * P / r decides, not price."
            : cold.Length > 0 ? " It waits for the deepest cold to pass, in which nothing would be stored." : "";
    }
}
