using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>A schedule made at random that keeps bounds and limits: no optimum may cost more.</summary>
internal sealed record RandomRun(HouseholdModel Model, HouseholdShortfalls Shortfalls, double Objective)
{
    public static RandomRun Of(HouseholdProblem problem, int seed)
    {
        var random = new Random(seed);
        var model = HouseholdModel.Of(problem);
        var powers = new HouseholdPowers(model.Cars.Length, problem.Count);
        var early = random.Next(2) == 0;
        for (var c = 0; c < model.Cars.Length; c++)
        {
            var car = model.Cars[c];
            var own = car.Car.Problem;
            var stored = own.InitialKwh;
            for (var i = 0; i < problem.Count; i++)
            {
                stored = Math.Max(own.LowerKwh[i + 1], stored - own.DriveKwh[i]);
                if (own.Place[i] != Place.Home || car.MostKw[i] <= 0 || (!early && random.Next(3) == 0))
                {
                    continue;
                }

                // No limit is passed by the share of it that each car has.
                var kw = car.MostKw[i];
                foreach (var limit in model.Limits.Where(l => l.Cars.Contains(c)))
                {
                    kw = Math.Min(kw, limit.Most[i] / limit.PerKw[Array.IndexOf(limit.Cars, c)] / limit.Cars.Length);
                }

                kw = car.Adjustable && random.Next(2) == 0 ? car.LeastKw[i] + ((kw - car.LeastKw[i]) * random.NextDouble()) : kw;
                if (kw < car.LeastKw[i] - 1e-9)
                {
                    continue;
                }

                // Up to what every later bound leaves room for.
                var gone = 0.0;
                var room = own.UpperKwh[i + 1] - stored;
                for (var b = i + 2; b <= problem.Count && gone == 0; b++)
                {
                    gone += own.DriveKwh[b - 1];
                    room = Math.Min(room, own.UpperKwh[b] - stored);
                }

                var rate = car.NetKw(i, kw, 1) * problem.Hours[i];
                var share = Math.Clamp(room / rate, 0, early ? 1 : random.NextDouble() * 1.5 > 1 ? 1 : random.NextDouble());
                powers.Share[c][i] = share;
                powers.WallKw[c][i] = kw * share;
                stored += rate * share;
            }
        }

        var run = RunnableSchedule.Of(model, new(problem), powers, [.. model.Cars.Select(c => new double[c.Car.Problem.Departures.Length])]);
        var passes = Enumerable.Range(0, model.Cars.Length).Any(c => Enumerable.Range(0, problem.Count + 1)
            .Any(b => run.StoredKwh[c][b] > model.Cars[c].Car.Problem.UpperKwh[b] + 1e-7));
        return new(model, passes ? run.Shortfalls with { BelowKwh = 1e9 } : run.Shortfalls, run.Objective);
    }

    public int Compare(HouseholdRelaxation relaxation, ShortfallOrder order) => Shortfalls.Compare(relaxation.Shortfalls, Model, order);
}
