using System.Diagnostics;
using System.Text.Json;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Benchmarks;

/// <summary>The Python reference in one child process that stays alive; it takes its own time for build and solve.</summary>
internal sealed class ReferencePeer : IDisposable
{
    private readonly Process process;

    private ReferencePeer(Process process) => this.process = process;

    /// <summary>Starts the peer, or says why it can't.</summary>
    public static ReferencePeer? Start(out string reason)
    {
        var script = Path.Combine(RepositoryRoot.Find(), "tests", "reference", "lp_peer.py");
        foreach (var python in new[] { "/usr/bin/python3", "python3" })
        {
            try
            {
                using var probe = Process.Start(new ProcessStartInfo(python, "-c \"import scipy, numpy\"") { RedirectStandardError = true });
                probe!.WaitForExit();
                if (probe.ExitCode != 0)
                {
                    continue;
                }
            }
            catch (System.ComponentModel.Win32Exception)
            {
                continue;
            }

            var start = new ProcessStartInfo(python) { RedirectStandardInput = true, RedirectStandardOutput = true };
            start.ArgumentList.Add(script);
            reason = string.Empty;
            return new ReferencePeer(Process.Start(start)!);
        }

        reason = "no Python with scipy and numpy was found";
        return null;
    }

    /// <summary>Makes an instance in the peer's memory and reads the same instance here.</summary>
    public PeerInstance Make(string span, bool flatPeriods, string temperatures)
    {
        Ask(new { make = span, flatPeriods, temperatures });
        var path = Path.GetTempFileName();
        try
        {
            Ask(new { dump = path });
            return JsonSerializer.Deserialize<PeerInstance>(File.ReadAllText(path), JsonSerializerOptions.Web)!;
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>Gives the peer a problem of ours: its intervals, bounds, wishes and end.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="finalKwh">The least at its end. [kWh]</param>
    public void Load(ChargingProblem problem, double finalKwh)
    {
        var departures = problem.Departures.Where(d => d.Boundary > 0).ToArray();
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, JsonSerializer.Serialize(
                new
                {
                    problem.Hours,
                    problem.WallKw,
                    problem.UsableKwh,
                    StartKwh = problem.InitialKwh,
                    LowestKwh = problem.LowerKwh[1..],
                    HighestKwh = problem.UpperKwh[1..],
                    RequiredKwh = departures.Select(d => d.RequiredKwh),
                    problem.Price,
                    Home = problem.Place.Select(p => p != Place.Road),
                    RateKw = problem.NetKw,
                    problem.DriveKwh,
                    Departures = departures.Select(d => d.Boundary - 1),
                    FinalKwh = finalKwh,
                },
                JsonSerializerOptions.Web));
            Ask(new { load = path });
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>Builds and solves once.</summary>
    public PeerSolution Solve()
    {
        var answer = Ask(new { solve = 1 });
        double Of(string name) => answer.GetProperty(name).GetDouble();
        return new PeerSolution((Of("build_s") + Of("solve_s")) * 1000, Of("objective"), Of("cost"), Of("unserved_kwh") + Of("missed_kwh"));
    }

    public void Dispose()
    {
        process.StandardInput.Close();
        if (!process.WaitForExit(5000))
        {
            process.Kill();
        }

        process.Dispose();
    }

    private JsonElement Ask(object question)
    {
        process.StandardInput.WriteLine(JsonSerializer.Serialize(question));
        process.StandardInput.Flush();
        var line = process.StandardOutput.ReadLine() ?? throw new InvalidOperationException("The reference ended.");
        var answer = JsonDocument.Parse(line).RootElement;
        return answer.TryGetProperty("error", out var error) ? throw new InvalidOperationException(error.GetString()) : answer;
    }
}

/// <summary>What the peer found.</summary>
/// <param name="Milliseconds">Its own time for build and solve. [ms]</param>
/// <param name="Objective">Cost and priced shortfalls.</param>
/// <param name="Cost">Cost of energy alone. [currency]</param>
/// <param name="ShortKwh">All shortfalls. [kWh]</param>
internal sealed record PeerSolution(double Milliseconds, double Objective, double Cost, double ShortKwh);
