using System.Diagnostics;
using System.Text.Json;

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

    /// <summary>Builds and solves once. [ms], and the objective.</summary>
    public (double Milliseconds, double Objective) Solve()
    {
        var answer = Ask(new { solve = 1 });
        var seconds = answer.GetProperty("build_s").GetDouble() + answer.GetProperty("solve_s").GetDouble();
        return (seconds * 1000, answer.GetProperty("objective").GetDouble());
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
