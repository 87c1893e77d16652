using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Demo;

namespace ScheduleOpt.Benchmarks;

/// <summary>The hub's question over HTTP on loopback: an open loop of 50 requests a second against the service in a process of its own.</summary>
/// <remarks>Latency counts from the instant at which a request was due, so that a slow answer can't hide the wait of those behind it.</remarks>
internal static class HttpBenchmark
{
    private const int PerSecond = 50;
    private const int Seconds = 30;
    private const int WarmUp = 300;
    private const string Url = "http://127.0.0.1:5179";

    public static async Task RunAsync()
    {
        using var service = Start();
        try
        {
            using var client = new HttpClient { BaseAddress = new Uri(Url) };
            await WaitUntilReadyAsync(client);
            Console.WriteLine($"POST /v1/schedules on loopback, {PerSecond} requests a second for {Seconds} s [ms].");
            await MeasureAsync(client, service, "one night (2 days ahead)", Body(2, explain: true));
            await MeasureAsync(client, service, "a week ahead (the default)", Body(7, explain: true));
            await MeasureAsync(client, service, "one night, unexplained", Body(2, explain: false));
            await MeasureAsync(client, service, "a week ahead, unexplained", Body(7, explain: false));
        }
        finally
        {
            service.Kill();
        }
    }

    /// <summary>The demo household's question, every time another state of charge.</summary>
    private static Func<int, byte[]> Body(int days, bool explain) => request =>
    {
        var document = JsonNode.Parse(DemoHousehold.TonightJson)!.AsObject();
        document["options"]!["horizonDays"] = days;
        document["options"]!["explain"] = explain;
        document["plugIn"]!["stateOfCharge"] = 0.15 + (0.6 * (request % 97) / 97);
        return Encoding.UTF8.GetBytes(document.ToJsonString());
    };

    private static async Task MeasureAsync(HttpClient client, Process service, string name, Func<int, byte[]> body)
    {
        for (var i = 0; i < WarmUp; i++)
        {
            await PostAsync(client, body(i));
        }

        var bodies = Enumerable.Range(0, PerSecond * Seconds).Select(body).ToArray();
        var latencies = new double[bodies.Length];
        var begun = Stopwatch.GetTimestamp();
        var pending = new List<Task>(bodies.Length);
        for (var i = 0; i < bodies.Length; i++)
        {
            var due = i * 1000.0 / PerSecond;
            var wait = due - Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
            if (wait > 0)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(wait));
            }

            pending.Add(OneAsync(i, due));
        }

        await Task.WhenAll(pending);
        var sorted = latencies.Order().ToArray();
        Console.WriteLine(
            $"  {name,-28} median {Quartiles.At(sorted, 0.5):F2}  p90 {Quartiles.At(sorted, 0.9):F2}  p99 {Quartiles.At(sorted, 0.99):F2}  "
            + $"largest {sorted[^1]:F2}  resident {ResidentMegabytes(service, "VmRSS"):F0} MB, peak {ResidentMegabytes(service, "VmHWM"):F0} MB");

        async Task OneAsync(int i, double due)
        {
            // The timer wakes up to a millisecond late; that is the client's fault, so latency counts from the later of due and sent.
            var sent = Math.Max(due, Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
            await PostAsync(client, bodies[i]);
            latencies[i] = Stopwatch.GetElapsedTime(begun).TotalMilliseconds - sent;
        }
    }

    private static async Task PostAsync(HttpClient client, byte[] body)
    {
        using var content = new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };
        using var answer = await client.PostAsync(new Uri("/v1/schedules", UriKind.Relative), content);
        await answer.Content.ReadAsByteArrayAsync();
        answer.EnsureSuccessStatusCode();
    }

    private static Process Start()
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "ScheduleOpt.Service.dll"));
        start.ArgumentList.Add("--urls");
        start.ArgumentList.Add(Url);
        var process = Process.Start(start)!;
        process.OutputDataReceived += static (_, _) => { };
        process.BeginOutputReadLine();
        return process;
    }

    private static async Task WaitUntilReadyAsync(HttpClient client)
    {
        for (var attempt = 0; attempt < 100; attempt++)
        {
            try
            {
                using var answer = await client.GetAsync(new Uri("/health/ready", UriKind.Relative));
                if (answer.IsSuccessStatusCode)
                {
                    return;
                }
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }

            await Task.Delay(100);
        }

        throw new InvalidOperationException("The service did not become ready.");
    }

    private static double ResidentMegabytes(Process process, string field)
    {
        var status = $"/proc/{process.Id}/status";
        if (!File.Exists(status))
        {
            return process.WorkingSet64 / 1048576.0;
        }

        var line = File.ReadLines(status).First(l => l.StartsWith(field, StringComparison.Ordinal));
        return double.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) / 1024;
    }
}
