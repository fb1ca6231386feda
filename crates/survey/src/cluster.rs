//! The same survey spread over machines: a scheduler, executors, and this program as their client, on the engine's own
//! distributed form. Every machine must see the tables under the same paths, and every process is this program: the
//! scheduler plans with our functions, the executors run them.

use crate::columns::Reading;
use crate::error::Error;
use crate::functions;
use crate::run::settings;
use crate::table::Table;
use ballista_core::config::TaskSchedulingPolicy;
use ballista_core::extension::{SessionConfigExt as _, SessionStateExt as _};
use ballista_core::registry::BallistaFunctionRegistry;
use ballista_core::{ConfigProducer, RuntimeProducer};
use ballista_executor::executor_process::{ExecutorProcessConfig, start_executor_process};
use ballista_scheduler::cluster::BallistaCluster;
use ballista_scheduler::config::SchedulerConfig;
use ballista_scheduler::scheduler_process::start_server;
use datafusion::execution::SessionStateBuilder;
use datafusion::execution::runtime_env::RuntimeEnvBuilder;
use datafusion::prelude::{DataFrame, SessionConfig, SessionContext};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

/// A cluster to work on.
#[derive(Debug, Clone)]
pub struct Cluster {
    /// Address of the scheduler, `http://host:port`.
    pub address: String,
    /// Parts that the rows are cut into between the stages.
    pub partitions: usize,
}

/// The words of the engine's registries and of its codec where a process does not know a function.
const UNKNOWN: [&str; 3] = ["UDF named", "UDAF named", "PhysicalExtensionCodec is not provided for"];

impl Cluster {
    /// A session whose queries run there.
    ///
    /// # Errors
    /// [`Error::Cluster`].
    pub fn session(&self) -> Result<SessionContext, Error> {
        let fail = |e: datafusion::error::DataFusionError| self.failed(&e.to_string());
        let state = SessionStateBuilder::new()
            .with_default_features()
            .with_config(of_cluster(self.partitions))
            .build()
            .upgrade_for_ballista(self.address.clone())
            .map_err(fail)?;
        let mut session = SessionContext::new_with_state(state);
        functions::register(&mut session)?;
        Ok(session)
    }

    /// Whether a failure may be gone when the same is asked again: an executor was lost with rows that it alone had.
    pub fn passes(message: &str) -> bool {
        !UNKNOWN.iter().any(|u| message.contains(u))
    }

    /// What a failure of the cluster means.
    pub fn failed(&self, message: &str) -> Error {
        let hint = if UNKNOWN.iter().any(|u| message.contains(u)) {
            "; a scheduler or executor there does not know our functions, or not those of this version: start each with \
             `limpid survey-worker` of the same version"
        } else {
            ""
        };
        Error::Cluster { address: self.address.clone(), message: format!("{}{hint}", message.trim()) }
    }

    /// Waits until an executor has answered a query that asks for nothing.
    ///
    /// # Errors
    /// [`Error::Cluster`]: nobody there, or nobody free in that time.
    pub async fn answers(&self, patience: Duration) -> Result<(), Error> {
        let session = self.session()?;
        let asked = async { session.sql("SELECT count(*) FROM (VALUES (1), (2)) AS t(n)").await?.collect().await };
        match tokio::time::timeout(patience, asked).await {
            Ok(Ok(_)) => Ok(()),
            Ok(Err(e)) => Err(self.failed(&e.to_string())),
            Err(_) => Err(self.failed(&format!(
                "no executor took a task within {} s: none is there (`limpid survey-worker executor`), or all are busy \
                 (--patience SECONDS waits longer)",
                patience.as_secs()
            ))),
        }
    }

    /// The view `results` over a table, and its session.
    ///
    /// # Errors
    /// [`Error`].
    pub async fn rows(&self, table: &Table, reading: &Reading) -> Result<(SessionContext, DataFrame), Error> {
        let session = self.session()?;
        let rows = table.rows(&session, &table.parts).await?;
        let view = reading.view(&session, table, rows).await?;
        Ok((session, view))
    }
}

/// Settings of client, scheduler and executors. The planner that changes a plan while it runs is left off: with it, a
/// job that has lost an executor waits without end for the stages that were rolled back, as it does where the scheduler
/// pushes tasks instead of executors asking for them (Ballista 55.0, found by `tests/cluster.rs`).
fn of_cluster(partitions: usize) -> SessionConfig {
    settings(SessionConfig::new_with_ballista().with_ballista_adaptive_query_planner(false), partitions)
}

/// Runs a scheduler until it is stopped.
///
/// # Errors
/// [`Error::Cluster`]: the address cannot be taken.
pub async fn scheduler(bind: SocketAddr, executor_timeout_s: u64) -> Result<(), Error> {
    let address = format!("http://{bind}");
    let fail = |e: String| Error::Cluster { address: address.clone(), message: e };
    let builder = |config: SessionConfig| {
        let mut state = SessionStateBuilder::new().with_default_features().with_config(config).build();
        functions::register(&mut state)?;
        Ok(state)
    };
    let config = SchedulerConfig {
        bind_host: bind.ip().to_string(),
        external_host: bind.ip().to_string(),
        bind_port: bind.port(),
        executor_timeout_seconds: executor_timeout_s,
        expire_dead_executor_interval_seconds: (executor_timeout_s / 2).max(1),
        executor_termination_grace_period: 1,
        no_executors_grace_period_seconds: executor_timeout_s,
        scheduling_policy: TaskSchedulingPolicy::PullStaged,
        override_session_builder: Some(Arc::new(builder)),
        override_config_producer: Some(Arc::new(|| of_cluster(16))),
        ..SchedulerConfig::default()
    };
    let cluster = BallistaCluster::new_from_config(&config).await.map_err(|e| fail(e.to_string()))?;
    start_server(cluster, bind, Arc::new(config)).await.map_err(|e| fail(e.to_string()))
}

/// What an executor is told.
#[derive(Debug, Clone)]
pub struct Executor {
    /// Host and port of the scheduler.
    pub scheduler: (String, u16),
    /// Address for the other executors and the client.
    pub bind: SocketAddr,
    /// Second port, for the scheduler.
    pub grpc_port: u16,
    /// Tasks at once.
    pub slots: usize,
    /// Folder for the rows between stages.
    pub work: PathBuf,
    /// Seconds between its signs of life.
    pub heartbeat_s: u64,
    /// Whether it knows our functions; it always does but in the test of what happens when not.
    pub with_functions: bool,
}

/// Runs an executor until it is stopped.
///
/// # Errors
/// [`Error::Cluster`]: no scheduler there, an address that cannot be taken.
pub async fn executor(e: &Executor) -> Result<(), Error> {
    let address = format!("http://{}:{}", e.scheduler.0, e.scheduler.1);
    let fail = |m: String| Error::Cluster { address: address.clone(), message: m };
    let mut state = SessionStateBuilder::new().with_default_features().with_config(of_cluster(e.slots)).build();
    if e.with_functions {
        functions::register(&mut state)?;
    }
    let runtime = Arc::new(RuntimeEnvBuilder::new().build()?);
    let producer: RuntimeProducer = Arc::new(move |_| Ok(Arc::clone(&runtime)));
    let slots = e.slots;
    let configs: ConfigProducer = Arc::new(move || of_cluster(slots));
    std::fs::create_dir_all(&e.work).map_err(Error::file(&e.work))?;
    let config = ExecutorProcessConfig {
        bind_host: e.bind.ip().to_string(),
        external_host: Some(e.bind.ip().to_string()),
        port: e.bind.port(),
        grpc_port: e.grpc_port,
        scheduler_host: e.scheduler.0.clone(),
        scheduler_port: e.scheduler.1,
        scheduler_connect_timeout_seconds: 20,
        vcores: e.slots,
        task_scheduling_policy: TaskSchedulingPolicy::PullStaged,
        work_dir: Some(e.work.to_string_lossy().into_owned()),
        executor_heartbeat_interval_seconds: e.heartbeat_s,
        override_function_registry: Some(Arc::new(BallistaFunctionRegistry::from(&state))),
        override_runtime_producer: Some(producer),
        override_config_producer: Some(configs),
        ..ExecutorProcessConfig::default()
    };
    start_executor_process(Arc::new(config)).await.map_err(|x| fail(x.to_string()))
}
